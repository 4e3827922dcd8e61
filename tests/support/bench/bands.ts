import type { Band, Basis, Expectation } from '../../../src/domain/band.ts';
import type { Mode, Stage } from '../../../src/domain/reading.ts';
import type { FamilyModel, PartModel, RailModel } from './model.ts';

type Rule = readonly [mode: Mode, stage: Stage | undefined, expects: Expectation, basis: Basis];

const DAYS: Readonly<Record<Basis, string>> = {
  'board marking': '2025-11-03',
  'common practice': '2025-11-03',
  'typed in': '2025-11-17',
  learned: '2025-12-15',
};

/** The bands that the bench has set for a family, each with its basis. */
export function bandsOf(family: FamilyModel): Band[] {
  const ofParts = family.parts.flatMap((part) => partRules(part).map((rule) => band(family, part.point, rule)));
  const ofRails = family.rails.flatMap((rail) => railRules(family, rail).map((rule) => band(family, rail.point, rule)));
  return [...ofParts, ...ofRails];
}

function band(family: FamilyModel, point: string, [mode, stage, expects, basis]: Rule): Band {
  const place = { family: family.name, point, mode, expects, basis, author: 'Tern Lane', date: DAYS[basis] };
  return stage === undefined ? place : { ...place, stage };
}

/** On the board, before and after the work. */
function inCircuit(mode: Mode, expects: Expectation): Rule[] {
  return (['as received', 'refitted'] as const).map((stage): Rule => [mode, stage, expects, 'common practice']);
}

function partRules(part: PartModel): Rule[] {
  switch (part.kind) {
    case 'fuse': {
      const good: Expectation = { kind: 'shorted', limit: 2 };
      return [['continuity', undefined, good, 'common practice'], ['resistance', undefined, good, 'common practice']]; // prettier-ignore
    }
    case 'bridge':
    case 'diode': {
      const volts = part.outOfCircuit;
      return [['diode', undefined, { kind: 'between', low: tidy(volts * 0.8), high: tidy(volts * 1.2) }, 'learned']];
    }
    case 'transistor':
      return [
        ...inCircuit('resistance', { kind: 'at least', limit: 50e3 }),
        ['resistance', 'part out', { kind: 'open', limit: 1e6 }, 'common practice'],
      ];
    case 'controller': {
      const between: Expectation = {
        kind: 'between',
        low: tidy(part.outOfCircuit * 0.6),
        high: tidy(part.outOfCircuit * 1.5),
      };
      return [
        ...inCircuit('resistance', { kind: 'at least', limit: 20e3 }),
        ['resistance', 'part out', between, 'typed in'],
      ];
    }
    case 'resistor':
      return [['resistance', undefined, { kind: 'at most', limit: 1.5 }, 'typed in']];
    case 'capacitor':
      return [
        ['resistance', undefined, { kind: 'at least', limit: 20e3 }, 'common practice'],
        ['capacitance', 'part out', { kind: 'percent', nominal: part.outOfCircuit, percent: 20 }, 'board marking'],
        ['ESR', 'part out', { kind: 'at most', limit: 1 }, 'typed in'],
      ];
  }
}

function railRules(family: FamilyModel, { role, volts }: RailModel): Rule[] {
  switch (role) {
    case 'mains':
      return [
        ['AC volts', undefined, { kind: 'percent', nominal: 230, percent: 10 }, 'common practice'],
        ['current', 'live', { kind: 'at most', limit: 0.9 }, 'typed in'],
      ];
    case 'bulk':
      return family.boost
        ? [['DC volts', undefined, { kind: 'between', low: 380, high: 400 }, 'common practice']]
        : [['DC volts', undefined, { kind: 'rectified mains', below: 10, above: 2 }, 'common practice']];
    case 'standby':
    case 'main':
      return [['DC volts', undefined, { kind: 'percent', nominal: volts, percent: 5 }, 'board marking']];
    case 'backlight':
      return [['DC volts', undefined, { kind: 'percent', nominal: volts, percent: 15 }, 'typed in']];
  }
}

/** Three significant digits, as somebody would type them. */
function tidy(value: number): number {
  return Number(value.toPrecision(3));
}
