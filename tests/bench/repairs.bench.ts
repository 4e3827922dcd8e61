import { examineBench } from '../support/examined-bench.ts';
import { brierScore, chancesTold, reliabilityCurve, type ToldChance } from '../support/next-on-bench.ts';

const KINDS = ['lift', 'probe', 'found', 'too thin', 'all measured'] as const;

/** Whether the chances of what to measure next come true as often as they say: the reliability curve over 1,000 repairs of the simulated bench. */
export function run(print: (line: string) => void): Promise<void> {
  const repairs = 1000;
  const bench = examineBench({ seed: 8, repairs });
  const { told, answers } = chancesTold(bench);
  const counts = KINDS.map((kind) => `${kind} ${answers.filter((answer) => answer.kind === kind).length}`);
  print(`${repairs} repairs, each asked of three times from the repairs before it: ${counts.join(', ')}`); // prettier-ignore
  for (const kind of ['lift', 'probe'] as const) {
    const own = told.filter((one) => one.kind === kind);
    print(`${kind}: ${own.length} chances told, Brier score ${brierScore(own).toFixed(4)}, ${brierScore(baseRate(own)).toFixed(4)} for the base rate alone`); // prettier-ignore
    for (const { from, to, count, meanTold, shareTrue } of reliabilityCurve(own))
      print(
        `  ${percent(from)} to ${percent(to)}: told ${percent(meanTold, 1)}, true ${percent(shareTrue, 1)} of ${count}`,
      );
  }
  return Promise.resolve();
}

/** The same chances, were nothing known but how often such a chance comes true. */
function baseRate(told: readonly ToldChance[]): readonly ToldChance[] {
  const chance = told.filter(({ isTrue }) => isTrue).length / told.length;
  return told.map((one) => ({ ...one, chance }));
}

function percent(share: number, digits = 0): string {
  return `${(100 * share).toFixed(digits)} %`;
}
