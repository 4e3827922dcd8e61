/** Gives a part of the bench, loaded when it is first asked for. @throws Error with a sentence for the page */
function part<Module>(load: () => Promise<Module>): () => Promise<Module> {
  return () =>
    load().catch(() => {
      throw new Error('A part of the page could not be loaded from where the page came from: reload the page.');
    });
}

/** The parts of the bench that no first view needs. */
export const later = {
  bandWork: part(() => import('./band-work.ts')),
  chosenRepairs: part(() => import('./chosen-repairs.ts')),
  familiesBeside: part(() => import('./families-beside.ts')),
  familyPage: part(() => import('./family-page.ts')),
  metersOverview: part(() => import('./meters-overview.ts')),
  readingsText: part(() => import('./readings-text.ts')),
  repairDecisions: part(() => import('./repair-decisions.ts')),
  repairStories: part(() => import('./repair-stories.ts')),
  runIns: part(() => import('./run-ins.ts')),
  whatNext: part(() => import('./what-next.ts')),
};

/** Loads all of them, so that none is waited for when it is asked for, nor missed once there is no network. */
export async function loadAhead(): Promise<void> {
  await Promise.allSettled(Object.values(later).map((load) => load()));
}
