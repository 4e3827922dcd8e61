import { describe, expect, test } from 'vitest';
import { NumberScanner } from '../../src/intake/number-scanner.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { QuantityScanner } from '../../src/intake/quantity-scanner.ts';
import { RecordReader } from '../../src/intake/record-reader.ts';
import { TimeScanner } from '../../src/intake/time-scanner.ts';
import { cellsOf, utf8 } from './support.ts';

/**
 * Counts the characters that `work` looks at or copies: each `charCodeAt`, the way that a search goes, the length that a copy has.
 * Regular expressions count the whole text once a call, for what they look at inside cannot be seen.
 */
function stepsOf(work: () => void): number {
  let steps = 0;
  const text = String.prototype as unknown as Record<string, (...values: unknown[]) => unknown>;
  const pattern = RegExp.prototype as unknown as Record<string, (...values: unknown[]) => unknown>;
  const undo: (() => void)[] = [];
  const count = (
    owner: Record<string, (...values: unknown[]) => unknown>,
    name: string,
    cost: (self: string, result: unknown, values: unknown[]) => number,
  ): void => {
    const original = owner[name]!;
    owner[name] = function (this: string, ...values: unknown[]): unknown {
      const result = original.apply(this, values);
      steps += cost(this, result, values);
      return result;
    };
    undo.push(() => (owner[name] = original));
  };
  const way = (self: string, result: unknown, [, from]: unknown[]): number => {
    const start = typeof from === 'number' ? from : 0;
    return 1 + (typeof result === 'number' && result >= 0 ? result : self.length) - Math.min(start, self.length);
  };
  count(text, 'charCodeAt', () => 1);
  count(text, 'charAt', () => 1);
  count(text, 'indexOf', way);
  count(text, 'lastIndexOf', (self, result) => 1 + self.length - (result as number));
  count(text, 'includes', (self) => self.length);
  count(text, 'split', (self) => self.length);
  count(text, 'search', (self) => self.length);
  for (const name of ['slice', 'trim', 'trimStart', 'toLowerCase', 'normalize', 'replace', 'replaceAll']) {
    count(text, name, (self, result) => (result === self ? 1 : (result as string).length));
  }
  // Each match of a replacement for all goes through here and starts where the one before ended; `test` calls it too.
  count(pattern, 'exec', (self, found, [subject]) => {
    const match = found as RegExpExecArray | null;
    if (match === null || !(self as unknown as RegExp).global) return (subject as string).length;
    return 1 + match[0].length;
  });
  try {
    work();
  } finally {
    for (const restore of undo) restore();
  }
  return steps;
}

/** Repeated to make text that leads readers astray. */
const UNITS = [
  '"',
  ',',
  ' ',
  '1',
  '-',
  '1e1e1e',
  ',"',
  '" ',
  '""',
  '\r',
  '"\n',
  ',""x',
  '"a""',
  "'",
  '\n"',
  'a"b,',
  '#',
  '1,',
  '.',
  '=',
  'x\r\n',
  '\t"',
  '",',
  '""x\n',
  '"x""\n',
  '"\n""\n',
  '""x,',
  '""x""\n',
  '""x""\n""\n',
  '"" ""\n',
  'a,""b""c\n',
  '"\r""',
];

/** Inputs of four sizes, each twice the one before; the factor from the first on shows what grows faster than the input. */
const SIZES = [5000, 10_000, 20_000, 40_000];

function expectLinear(stepsFor: (text: string) => number, unit: string): void {
  const steps = SIZES.map((size) => stepsFor(unit.repeat(Math.ceil(size / unit.length))));
  for (const [at, more] of steps.slice(1).entries()) {
    const before = steps[at]!;
    // Small constants aside, twice the input is at most 2.3 times the work.
    expect(more, `${JSON.stringify(unit)}: ${steps.join(', ')} steps`).toBeLessThanOrEqual(2.3 * before + 1000);
  }
}

describe('twice a hostile input is at most 2.3 times the work', () => {
  test.each(UNITS)('cut into records: %j again and again', (unit) => {
    expectLinear((text) => stepsOf(() => cellsOf(text)), unit);
  });

  test.each(UNITS)('cut into records as it comes in pieces: %j again and again', (unit) => {
    const inPieces = (text: string): void => {
      const reader = new RecordReader(',');
      for (let at = 0; at < text.length; at += 100) reader.push(text.slice(at, at + 100), false);
      reader.push('', true);
    };
    expectLinear((text) => stepsOf(() => { inPieces(text); }), unit); // prettier-ignore
  });

  test.each(UNITS)('planned as a file: %j again and again', (unit) => {
    expectLinear((text) => {
      const bytes = utf8(text);
      return stepsOf(() => {
        planFile('hostile.csv', bytes, true);
      });
    }, unit);
  });

  test.each(UNITS)('read as a number, a quantity and a time: %j again and again', (unit) => {
    const number = new NumberScanner();
    const quantity = new QuantityScanner();
    const times = new TimeScanner();
    expectLinear(
      (text) =>
        stepsOf(() => {
          if (number.scan(text, 0, '.')) number.value(0);
          quantity.scan(text, ',', 0);
          times.scan(text, 'day-month-year');
        }),
      unit,
    );
  });
});

test('the counting itself shows work that grows with the square of the input', () => {
  const square = (text: string): number =>
    stepsOf(() => {
      for (let at = 0; at < text.length; at += 100) text.indexOf('y', at);
    });
  expect(() => {
    expectLinear(square, 'x');
  }).toThrow('steps');
});
