/** What the worker answers, for whoever shows it. */
export { DERIVED_FIELDS } from '../columns/derived.ts';
export { GROUP_FIELDS } from '../columns/groups.ts';
export { LISTED_FIELDS } from '../columns/query.ts';
export type { DerivedField } from '../columns/derived.ts';
export type { Grouping } from '../columns/groups.ts';
export type { Filter, ListedField, ReadingsQuery, SortField } from '../columns/query.ts';
export type { SettingsChanges } from '../domain/bench-settings.ts';
export type { KeptView } from '../domain/kept-view.ts';
export type { NameAnswer } from '../domain/name-answer.ts';
export type { EditField, ReadingPatch, RowIdentity } from '../domain/reading-edit.ts';
export type {
  BandLine,
  BandsOverview,
  LearningSettings,
  MetersRead,
  PastPoints,
  Proposal,
  ProposalLine,
  Rejudged,
  Trial,
  TrialShare,
} from '../worker/contract/bands.ts';
export type { BenchCalls, CallName } from '../worker/contract/calls.ts';
export type {
  FamiliesBeside,
  FamilyLine,
  FamilyPage,
  FamilyQuery,
  Holding,
  LiveNumbers,
  LivePoints,
  MetersOverview,
  RepairsChosen,
  RepairsQuery,
} from '../worker/contract/families.ts';
export { HISTORY_KINDS } from '../worker/contract/history.ts';
export type { Change, HistoryKind, HistoryLine, HistorySubject } from '../worker/contract/history.ts';
export type {
  ImportOutcome,
  Mend,
  MendOutcome,
  PlanChoices,
  ShiftOverview,
  UnknownName,
} from '../worker/contract/intake.ts';
export type { BackupContents, BenchSummary } from '../worker/contract/memory.ts';
export type {
  AddAnswer,
  CellText,
  EditAnswer,
  EditsSoFar,
  NewRows,
  ReadingHistoryEntry,
  StepNote,
} from '../worker/contract/reading-edits.ts';
export type {
  FacetValue,
  GridLine,
  GroupLine,
  ReadingRow,
  ReadingsCount,
  SelectionSummary,
} from '../worker/contract/readings.ts';
export type { GoBackAnswer, PartEvidence, RepairLine, RepairStory } from '../worker/contract/repairs.ts';
export type { WorkProgress } from '../worker/contract/progress.ts';
