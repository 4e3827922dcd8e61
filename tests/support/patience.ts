/**
 * How long something is waited for that must come, in milliseconds. A bound against waiting for ever, and no claim of speed: tests wait for what the
 * page says, however long a busy machine takes to say it.
 */
export const PATIENCE = 120_000;

/** How long a whole test may take, in milliseconds, many such waits included. */
export const TEST_PATIENCE = 900_000;
