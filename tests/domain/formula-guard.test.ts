import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { guardFormula, unguardFormula } from '../../src/domain/formula-guard.ts';

describe('guardFormula(text)', () => {
  // OWASP, CSV Injection: = + - @, tab, carriage return and line feed; ASVS 1.2.10: NUL. The full-width forms are from memory.
  const triggers = ['=', '+', '-', '@', '\t', '\r', '\n', '\0', '＝', '＋', '－', '＠'];

  test.each(triggers.flatMap((trigger) => [`${trigger}1+1`, `  ${trigger}1+1`, `'${trigger}1+1`]))(
    'puts an apostrophe before %j',
    (text) => {
      expect(guardFormula(text)).toBe(`'${text}`);
    },
  );

  test.each(['-1-1', '+1-1', '-2+3+cmd', '-5 V'])('takes %j for more than a number', (text) => {
    expect(guardFormula(text)).toBe(`'${text}`);
  });

  test.each(['-5', '+13', '-1.25', '-1,25', 'T-0001', 'Q1 D→S', "'x", ''])('leaves %j alone', (text) => {
    expect(guardFormula(text)).toBe(text);
  });

  test('can be undone exactly: what it guarded begins like a formula once one apostrophe is taken off', () => {
    const piece = fc.constantFrom("'", '=', '-', ' ', '1', 'x', '\t');
    fc.assert(
      fc.property(
        fc.array(piece).map((pieces) => pieces.join('')),
        (text) => {
          const guarded = guardFormula(text);
          const isGuarded = guarded !== text;
          expect(isGuarded ? guarded.slice(1) : guarded).toBe(text);
          expect(unguardFormula(guarded)).toBe(text);
          // Nothing that was left alone looks as if it had been guarded.
          if (!isGuarded && text.startsWith("'")) expect(guardFormula(text.slice(1))).toBe(text.slice(1));
        },
      ),
    );
  });
});
