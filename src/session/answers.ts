/** What the worker answers, for whoever shows it. */
export { DERIVED_FIELDS } from '../columns/derived.ts';
export { GROUP_FIELDS } from '../columns/groups.ts';
export { LISTED_FIELDS } from '../columns/query.ts';
export type { DerivedField } from '../columns/derived.ts';
export type { Grouping } from '../columns/groups.ts';
export type { Filter, ListedField, ReadingsQuery, SortField } from '../columns/query.ts';
export type { NameAnswer } from '../domain/name-answer.ts';
export type { EditField, ReadingPatch } from '../domain/reading-edit.ts';
export type { BandLine, BandsOverview, PastPoints } from '../worker/contract/bands.ts';
export type { BenchCalls, CallName } from '../worker/contract/calls.ts';
export type {
  FamilyLine,
  FamilyPage,
  FamilyPatterns,
  FamilyQuery,
  Holding,
  MetersOverview,
  PartFailures,
} from '../worker/contract/families.ts';
export type { ImportOutcome, PlanChoices, ShiftOverview, UnknownName } from '../worker/contract/intake.ts';
export type { BackupContents, BenchSummary } from '../worker/contract/memory.ts';
export type { CellText, EditAnswer, EditsSoFar } from '../worker/contract/reading-edits.ts';
export type {
  FacetValue,
  GridLine,
  GroupLine,
  ReadingRow,
  ReadingsCount,
  SelectionSummary,
} from '../worker/contract/readings.ts';
export type { PartEvidence, RepairLine, RepairStory } from '../worker/contract/repairs.ts';
