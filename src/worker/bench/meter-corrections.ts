import { MODES } from '../../domain/reading.ts';
import type { MeterPeriod } from '../../patterns/meter-offsets.ts';
import type { Judged } from './bench-data.ts';
import { knownOffsets } from './known-offsets.ts';

/** What is known of how far a bench's meters are off. */
export interface MeterCorrections {
  /** How much the meter of a row reads too high at its time, in percent; 0 where nothing sure is known of it. */
  readonly percentAt: (row: number) => number;
  /** Two meters that surely differ where nobody knows which is off, so that neither is put right, and by how much in percent. */
  readonly undecided: { readonly meters: readonly [string, string]; readonly percent: number } | undefined;
}

/** The modes whose readings the offsets are found from; what holds for voltages need not hold for ohms. */
const VOLTAGES: ReadonlySet<number> = new Set([MODES.indexOf('DC volts'), MODES.indexOf('AC volts')]);

/** A smaller offset is neither worth naming nor sure to be more than chance, in percent. */
const LEAST_OFFSET = 0.3;

/** The corrections of a bench's meters. An offset is known where it is worth naming and its 95 % limits leave zero out. */
export function meterCorrections({ data: { log } }: Judged): MeterCorrections {
  const { periods, onlyDifference } = knownOffsets(log);
  if (onlyDifference) return { percentAt: () => 0, undecided: undecidedPair(periods) };
  const byMeter = log.names.meters.labels.map((name) => periods.filter(({ meter }) => meter === name));
  const isVoltage = Uint8Array.from({ length: log.names.checks.size }, (_, check) =>
    VOLTAGES.has(log.names.checks.modeCode(check)) ? 1 : 0,
  );
  const percentAt = (row: number): number => {
    const own = isVoltage[log.check[row]!] === 1 ? byMeter[log.meter[row]!] : undefined;
    const period = own && periodAt(own, log.time[row]!);
    return period !== undefined && isSure(period) ? period.percent : 0;
  };
  return { percentAt, undecided: undefined };
}

/** The period that a moment lies in: the first also holds what came before it. Of an unknown moment only a meter without a drift tells. */
function periodAt(periods: readonly MeterPeriod[], time: number): MeterPeriod | undefined {
  if (periods.length < 2) return periods[0];
  if (Number.isNaN(time)) return undefined;
  return periods.findLast(({ since }) => since <= time) ?? periods[0];
}

function isSure({ percent, low, high }: MeterPeriod): boolean {
  return Math.abs(percent) >= LEAST_OFFSET && (low > 0 || high < 0);
}

function undecidedPair(periods: readonly MeterPeriod[]): MeterCorrections['undecided'] {
  const [first, second] = periods;
  if (first === undefined || second === undefined || first.meter === second.meter) return undefined;
  if (!isSure(first) && !isSure(second)) return undefined;
  return { meters: [first.meter, second.meter], percent: Math.abs(first.percent - second.percent) };
}
