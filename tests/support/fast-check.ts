import fc from 'fast-check';
import { inject } from 'vitest';

declare module 'vitest' {
  interface ProvidedContext {
    /** What all properties draw from: the suite's own number, so that a run tells of the change and not of the dice. */
    propertySeed: number;
  }
}

fc.configureGlobal({ seed: inject('propertySeed') });

export default fc;
