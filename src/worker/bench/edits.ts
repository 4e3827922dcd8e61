import type { Band } from '../../domain/band.ts';
import { changedSettings, settingsFault, type SettingsChanges } from '../../domain/bench-settings.ts';
import type { Family } from '../../domain/family.ts';
import { bandRecordFault, familyFault, meterFault } from '../../domain/fault.ts';
import { viewFault, withView, type KeptView } from '../../domain/kept-view.ts';
import type { Meter } from '../../domain/meter.ts';
import type { Repair } from '../../domain/repair.ts';
import { repairFault } from '../../domain/repair-fault.ts';
import type { Overrule } from '../../judging/go-back.ts';
import type { BenchData } from './bench-data.ts';

/** Names the place that one band holds: a family's point in one mode, at one stage or at all. */
export function bandPlace({ family, point, mode, stage }: Band): string {
  return JSON.stringify([family, point, mode, stage ?? '']);
}

/** The bench with bands set in place of those of the same place, which go to the history. @throws where one cannot be used, with a sentence */
export function withBands(data: BenchData, bands: readonly Band[]): BenchData {
  for (const band of bands) refuse(bandRecordFault(band));
  const places = new Set(bands.map(bandPlace));
  const gone = data.bands.filter((band) => places.has(bandPlace(band)));
  const kept = data.bands.filter((band) => !places.has(bandPlace(band)));
  const set = new Map(bands.map((band) => [bandPlace(band), band]));
  return { ...data, bands: [...kept, ...set.values()], earlierBands: [...data.earlierBands, ...gone] };
}

/** The bench without the band of one place, which goes to the history. */
export function withoutBand(data: BenchData, band: Band): BenchData {
  const place = bandPlace(band);
  const gone = data.bands.filter((one) => bandPlace(one) === place);
  return {
    ...data,
    bands: data.bands.filter((one) => bandPlace(one) !== place),
    earlierBands: [...data.earlierBands, ...gone],
  };
}

/** The bench with a family added or in place of the one of its name. @throws where it cannot be used, with a sentence */
export function withFamily(data: BenchData, family: Family): BenchData {
  refuse(familyFault(family));
  return { ...data, families: new Map([...data.families, [family.name, family]]) };
}

/** The bench with meters added or in place of those of their names. @throws where one cannot be used, with a sentence */
export function withMeters(data: BenchData, meters: readonly Meter[]): BenchData {
  for (const meter of meters) refuse(meterFault(meter));
  const set = new Map(meters.map((meter) => [meter.name, meter]));
  return { ...data, meters: [...data.meters.filter(({ name }) => !set.has(name)), ...set.values()] };
}

/**
 * The bench with a repair added or in place of the one of its id.
 * @param isNew - whether it may only be added
 * @throws where it cannot be kept, with a sentence
 */
export function withRepair(data: BenchData, repair: Repair, isNew = false): BenchData {
  refuse(repairFault(repair, data.repairs, isNew)?.sentence);
  return { ...data, repairs: new Map([...data.repairs, [repair.id, repair]]) };
}

/** The bench with a line of one repair overruled for a reason, or no longer, where the reason is empty. @throws where nothing names the repair */
export function withOverrule(data: BenchData, overrule: Overrule): BenchData {
  const { repair, rule } = overrule;
  const isKnown = data.repairs.has(repair) || data.log.names.repairs.find(repair) >= 0;
  refuse(isKnown ? undefined : `No repair ${repair} is on the bench.`);
  const others = data.overrules.filter((one) => one.repair !== repair || one.rule !== rule);
  const reason = overrule.reason.trim();
  return { ...data, overrules: reason === '' ? others : [...others, { repair, rule, reason }] };
}

/** The bench with some settings changed. @throws where they cannot be used, with a sentence */
export function withSettings(data: BenchData, changes: SettingsChanges): BenchData {
  const settings = changedSettings(data.settings, changes);
  refuse(settingsFault(settings));
  return { ...data, settings };
}

/** The bench with a view added or in place of the one of its name. @throws where it cannot be kept, with a sentence */
export function withKeptView(data: BenchData, view: KeptView): BenchData {
  refuse(viewFault(view));
  return { ...data, views: withView(data.views, view) };
}

function refuse(fault: string | undefined): void {
  if (fault !== undefined) throw new Error(fault);
}
