import { expect, test } from 'vitest';
import { accuracyLines } from '../../src/ui/panels/meters-accuracy.ts';

const volts = { mode: 'DC volts', percent: 0.5, counts: 2 } as const;

test('ranges of one mode that are equally accurate share a line, up to the widest of them', () => {
  const ranges = [
    { ...volts, upTo: 600, resolution: 0.1 },
    { ...volts, upTo: 60, resolution: 0.01 },
    { ...volts, upTo: 1000, percent: 0.8, resolution: 1 },
    { mode: 'resistance', upTo: 60e6, percent: 1.5, counts: 1 },
  ] as const;
  expect(accuracyLines(ranges, '.').map((line) => line.replaceAll('\u00a0', ' '))).toEqual([
    'DC volts up to 600 V in 2 ranges: ± (0.5 % + 2 counts)',
    'DC volts up to 1 kV: ± (0.8 % + 2 counts), last digit 1 V',
    'resistance up to 60 MΩ: ± (1.5 % + 1 count)',
  ]);
  expect(accuracyLines([], '.')).toEqual([]);
});
