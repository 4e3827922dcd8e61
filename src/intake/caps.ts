/** Largest file read, in bytes: 1 GiB. */
export const MAX_FILE_BYTES = 1_073_741_824;
/** Longest cell read, in UTF-16 units: 1 Mi. A longer one sets its row aside. */
export const MAX_CELL = 1_048_576;
/** Longest row read, in UTF-16 units. A longer one is set aside, and its text skipped. */
export const MAX_ROW = 16 * MAX_CELL;
/** Longest header row read, in UTF-16 units. */
export const MAX_HEADER = 1_048_576;
/** Most columns that a file may have. */
export const MAX_COLUMNS = 16_384;
/** Bytes of a file's beginning that a plan is guessed from. */
export const HEAD_BYTES = 262_144;
/** Set-aside rows kept with their text; beyond it they are only counted. */
export const MAX_SET_ASIDE_KEPT = 10_000;
/** Text of a set-aside row that is kept, in UTF-16 units. */
export const MAX_CONTENT = 4_096;
/** Longest name of a repair, family, point or meter, in UTF-16 units. */
export const MAX_NAME = 200;
/** Most different points and families of one file, and most different meters: what a log's columns can number. */
export const MAX_POINTS = 1_048_576;
export const MAX_METERS = 65_536;
