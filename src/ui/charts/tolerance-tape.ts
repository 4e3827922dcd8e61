import { nothing, svg, type TemplateResult } from 'lit';
import { html } from 'lit';
import { layOutTape, type Tape, type TapeInput, type TapeMark, type TapeReading } from '../../charts/tape.ts';
import type { Limits } from '../../domain/band.ts';
import { MODE_UNITS, type Mode, type Reading } from '../../domain/reading.ts';
import { isOutOfBand, verdictOf } from '../../domain/verdict.ts';
import type { ReadingRow } from '../../session/answers.ts';

/** Size of the mark in its own units; elements scale it by their style sheets. */
const WIDTH = 130;
const HEIGHT = 18;
const MIDDLE = HEIGHT / 2;
/** Marks at the ends keep this far inside. */
const INSET = 6;

/**
 * The tolerance tape of a reading: the band in the middle of a short scale, a tick for the reading with a whisker for its
 * uncertainty, an arrowhead where it runs off, a hollow ring for over-range. A hollow tick is a conditional verdict.
 * It says nothing to screen readers: the cells beside it hold the same in words. Styled by `tapeStyles`.
 */
export function tape(row: ReadingRow): TemplateResult {
  const tone = isOutOfBand(row.verdict) ? 'bad' : 'plain';
  const doubtful = verdictOf(row.verdict).startsWith('conditional');
  const reading = tapeReading(row, row.uncertainty);
  return draw(layOutTape(inputOf(row.mode, row.limits, reading)), `${tone}${doubtful ? ' doubtful' : ''}`);
}

/** The tape of a band alone, without a reading. */
export function bandTape(mode: Mode, limits: Limits | undefined): TemplateResult {
  return draw(layOutTape(inputOf(mode, limits, undefined)), 'plain');
}

function inputOf(mode: Mode, limits: Limits | undefined, reading: TapeReading | undefined): TapeInput {
  return {
    ...(limits === undefined ? {} : { band: limits }),
    ...(reading === undefined ? {} : { reading }),
    decades: MODE_UNITS[mode] === 'Ω',
  };
}

function tapeReading({ state, value }: Reading, uncertainty: number): TapeReading | undefined {
  switch (state) {
    case 'value':
      return { kind: 'value', value, uncertainty };
    case 'over-range':
    case 'no beep':
      return { kind: 'above' };
    case 'below-range':
    case 'beep':
      return { kind: 'below' };
    case 'blank':
      return undefined;
  }
}

function draw({ band, limits, mark }: Tape, tone: string): TemplateResult {
  return html`<svg class="tape" viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true">
    <path class="scale" d="M0 ${MIDDLE}H${WIDTH}" />
    ${
      band === undefined
        ? nothing
        : svg`<rect class="band" x=${x(band.from)} y=${MIDDLE - 3.5} width=${x(band.to - band.from)} height="7" />`
    }
    ${limits.map((at) => svg`<path class="limit" d="M${x(at)} ${MIDDLE - 6.5}V${MIDDLE + 6.5}" />`)}
    ${mark === undefined ? nothing : svg`<g class="mark ${tone}">${drawMark(mark)}</g>`}
  </svg>`;
}

function drawMark(mark: TapeMark): TemplateResult<2> {
  switch (mark.kind) {
    case 'tick': {
      const at = Math.max(2, Math.min(WIDTH - 2, x(mark.at)));
      const whisker =
        mark.whisker && svg`<path class="whisker" d="M${x(mark.whisker.from)} ${MIDDLE}H${x(mark.whisker.to)}" />`;
      return svg`${whisker ?? nothing}<rect class="tick" x=${at - 1.75} y=${MIDDLE - 5.5} width="3.5" height="11" />`;
    }
    case 'arrow': {
      const [tip, tail] = mark.to === 'left' ? [0, 8] : [WIDTH, WIDTH - 8];
      return svg`<path class="tick" d="M${tip} ${MIDDLE}L${tail} ${MIDDLE - 5}V${MIDDLE + 5}Z" />`;
    }
    case 'ring':
      return svg`<circle class="ring" cx=${mark.to === 'left' ? INSET : WIDTH - INSET} cy=${MIDDLE} r="4" />`;
  }
}

function x(share: number): number {
  return Math.round(share * WIDTH * 100) / 100;
}
