import { LitElement, css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutMasking, type MaskingLayout, type PlacedPart } from '../../charts/masking-drawing.ts';
import type { PartEvidence } from '../../session/answers.ts';
import { shared } from '../styles/shared.styles.ts';
import { listText } from '../words.ts';
import { saveSvg } from './save-svg.ts';

const SIZE = { column: 136, row: 22 };
/** Signs of what the readings prove, as they stand beside a part's name. */
const SIGNS: Readonly<Record<PartEvidence['finding'], string>> = {
  failed: '✗',
  good: '✓',
  cleared: '✓',
  contradictory: '◆',
  suspected: '◇',
  'not measured': '·',
};

/** The nodes of a family as upright lines with its parts as rungs between them; parts on a shaded ground mask each other in circuit. */
@customElement('bt-masking-figure')
export class MaskingFigure extends LitElement {
  static override styles = [
    shared,
    css`
      figure {
        margin: 0.5rem 0;
        overflow-x: auto;
      }

      svg {
        display: block;
        overflow: visible;
        font: 0.875rem var(--font-text);
        fill: var(--ink);
      }

      .node {
        fill: none;
        stroke: var(--quiet);
        stroke-width: 1.5;
      }

      .rung {
        fill: none;
        stroke: var(--ink);
      }

      .group {
        fill: var(--band);
      }

      .name {
        fill: var(--quiet);
        font-size: 0.8125rem;
      }

      .part {
        font-weight: 600;
        paint-order: stroke;
        stroke: var(--paper);
        stroke-width: 4;
      }

      .group + .part,
      .part.masked {
        stroke: var(--band);
      }

      .failed {
        fill: var(--wrong);
      }

      text {
        dominant-baseline: central;
        text-anchor: middle;
      }

      /* The system does not recolour drawings by itself. */
      @media (forced-colors: active) {
        svg {
          --ink: CanvasText;
          --quiet: CanvasText;
          --wrong: CanvasText;
        }

        .group {
          fill: Canvas;
          stroke: GrayText;
        }

        .group + .part,
        .part.masked,
        .part {
          stroke: Canvas;
        }
      }
    `,
  ];

  @property({ attribute: false }) parts: readonly PlacedPart[] = [];
  @property({ attribute: false }) evidence: readonly PartEvidence[] = [];
  /** What the drawing is called when it is saved. */
  @property({ attribute: false }) name = '';

  private save(): void {
    const drawing = this.renderRoot.querySelector('svg');
    if (drawing !== null) saveSvg(drawing, this.name);
  }

  private renderRung({ groups }: MaskingLayout, { designator, left, right, y }: MaskingLayout['rungs'][number]) {
    const finding = this.evidence.find(({ part }) => part === designator)?.finding ?? 'not measured';
    const masked = groups.some((group) => group.parts.includes(designator)) ? 'masked' : '';
    return svg`<path class="rung" d="M${left} ${y}H${right}" />
      <circle cx=${left} cy=${y} r="2.5" /><circle cx=${right} cy=${y} r="2.5" />
      <text class="part ${masked} ${finding}" x=${(left + right) / 2} y=${y}>${designator} ${SIGNS[finding]}</text>`;
  }

  private renderDrawing(layout: MaskingLayout) {
    const { nodes, rungs, groups, width, height } = layout;
    return html`<svg width=${width} height=${height + 8} viewBox="0 0 ${width} ${height + 8}" role="img" aria-labelledby="said">
      ${groups.map(
        ({ left, right, top, bottom }) =>
          svg`<rect class="group" x=${left} y=${top + 2} width=${right - left} height=${bottom - top - 4} />`,
      )}
      ${nodes.map(
        ({ node, x, label, from, to }) =>
          svg`<path class="node" d="M${x} ${from - 8}V${to + 8}" /><text class="name" x=${x} y=${label}>${node}</text>`,
      )}
      ${rungs.map((rung) => this.renderRung(layout, rung))}
    </svg>`; // prettier-ignore
  }

  override render() {
    const layout = layOutMasking(this.parts, SIZE);
    const { groups, nodes, rungs } = layout;
    const together = groups.map(({ parts }) => listText(parts));
    return html`<h2 id="title">Which parts mask each other?</h2>
      <p id="said">
        ${rungs.length} parts between ${nodes.length} nodes.
        ${
          together.length === 0
            ? 'No two lie across the same nodes, so none masks another in circuit.'
            : `On shaded ground, across the same two nodes: ${together.join('; ')}. In circuit each reads as the worst of them.`
        }
      </p>
      <p class="quiet">✗ failed, ◇ suspected, ◆ contradictory, ✓ good or cleared, · not measured.</p>
      <figure tabindex="0" role="group" aria-label="Drawing of parts and nodes">
        ${rungs.length === 0 ? nothing : this.renderDrawing(layout)}
      </figure>
      <button class="plain" type="button" @click=${this.save}>Save the drawing as SVG</button>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-masking-figure': MaskingFigure;
  }
}
