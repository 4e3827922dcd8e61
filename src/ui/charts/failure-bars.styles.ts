import { css } from 'lit';

export const failureBarsStyles = css`
  .beside {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 34rem), 1fr));
    gap: 1rem 3rem;
    align-items: start;
  }

  figure {
    position: relative;
    min-inline-size: 0;
    margin: 0;
  }

  svg {
    display: block;
    inline-size: 100%;
    overflow: visible;
    font-size: 0.875rem;
  }

  .legend {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1.25rem;
    margin: 0 0 0.5rem;
    padding: 0;
    font-size: var(--small);
    list-style: none;
  }

  .legend li {
    display: flex;
    align-items: center;
    gap: 0.5rem;
  }

  .legend svg {
    inline-size: 1.75rem;
    block-size: 1rem;
  }

  text {
    fill: var(--ink);
    dominant-baseline: central;
  }

  text.part {
    font-weight: 600;
    text-anchor: end;
  }

  text.label,
  text.tick {
    fill: var(--quiet);
  }

  /* Lines of the scale stop short of the words. */
  text.label {
    stroke: var(--paper);
    stroke-width: 5;
    paint-order: stroke;
  }

  text.tick {
    text-anchor: middle;
  }

  .axis {
    fill: none;
    stroke: var(--rule);
  }

  .segment {
    fill: var(--blue);
    stroke: var(--blue);
    stroke-width: 1;
  }

  .segment.leaky {
    fill: color-mix(in srgb, var(--blue) 55%, var(--paper));
  }

  .segment.open {
    fill: var(--band);
  }

  .segment.failed {
    fill: color-mix(in srgb, var(--blue) 50%, var(--ink));
  }

  .segment.suspected {
    fill: url('#hatch');
    stroke-dasharray: 3 2;
  }

  .hatch {
    fill: none;
    stroke: var(--blue);
    stroke-width: 1.25;
  }

  .whisker {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.25;
  }

  .diamond {
    fill: var(--paper);
    stroke: var(--ink);
    stroke-width: 1.5;
  }

  .target {
    fill: transparent;
    stroke: none;
  }

  .bar {
    outline: none;
  }

  .bar:hover .target {
    fill: color-mix(in srgb, var(--ink) 4%, transparent);
  }

  .bar:focus-visible .target {
    stroke: var(--blue);
    stroke-width: 2;
  }

  .readout {
    min-block-size: 3em;
    margin-block: 0.5rem;
  }

  table {
    inline-size: auto;
  }

  th,
  td {
    padding-inline-end: 0.875rem;
  }

  @media (forced-colors: active) {
    .segment {
      fill: Highlight;
      stroke: CanvasText;
    }

    .segment.leaky,
    .segment.open,
    .segment.failed {
      fill: Canvas;
    }

    .hatch,
    .whisker,
    .diamond {
      stroke: CanvasText;
    }
  }
`;
