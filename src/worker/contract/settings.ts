import type { BenchSettings, SettingsChanges } from '../../domain/bench-settings.ts';
import type { KeptView } from '../../domain/kept-view.ts';

/** What is stated once for the whole bench, and views kept under names. */
export interface SettingsCalls {
  settings(): BenchSettings;
  /** Changes those that are named, whatever the others are by now. @throws where they cannot be used, with a sentence */
  changeSettings(changes: SettingsChanges): BenchSettings;
  /** In order of their names. */
  views(): readonly KeptView[];
  /** Adds a view or replaces the one of its name. @throws where it cannot be kept, with a sentence */
  setView(view: KeptView): readonly KeptView[];
  /** Lets a view go, where there is one of this name. */
  removeView(name: string): readonly KeptView[];
}
