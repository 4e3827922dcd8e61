import { css } from 'lit';

/** What every chart's drawing shares: text, scales, marks and the line that reads them out. */
export const chartStyles = css`
  .plot {
    min-inline-size: 0;
    overflow-x: auto;
    overflow-y: hidden;
  }

  svg {
    display: block;
    inline-size: 100%;
    font-size: 0.875rem;
  }

  .plot > svg {
    min-inline-size: var(--least-width, 0);
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
    flex: none;
    inline-size: 1.75rem;
    block-size: 1rem;
  }

  text {
    fill: var(--ink);
    dominant-baseline: central;
  }

  text.name {
    font-weight: 600;
    text-anchor: end;
  }

  text.label,
  text.tick,
  text.side,
  text.title {
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

  text.side,
  text.end {
    text-anchor: end;
  }

  .axis {
    fill: none;
    stroke: var(--rule);
  }

  .base {
    fill: none;
    stroke: var(--quiet);
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

  .mark {
    outline: none;
  }

  .mark:hover .target {
    fill: color-mix(in srgb, var(--ink) 6%, transparent);
  }

  .mark:focus-visible .target {
    stroke: var(--blue);
    stroke-width: 2;
  }

  .readout {
    min-block-size: 2.8em;
    margin-block: 0.5rem;
  }

  /* The system does not recolour drawings by itself. The ground keeps its name for the files that are saved. */
  @media (forced-colors: active) {
    svg {
      --ink: CanvasText;
      --quiet: CanvasText;
      --rule: GrayText;
      --blue: LinkText;
      --wrong: CanvasText;
    }

    text.label {
      stroke: Canvas;
    }

    .diamond {
      fill: Canvas;
    }
  }

  /* A page of paper is narrower than the screen that the drawing was made for, and nothing scrolls on it. */
  @media print {
    .plot {
      overflow: visible;
      break-inside: avoid;
    }

    .plot > svg {
      min-inline-size: 0;
      max-inline-size: var(--drawn-width);
      block-size: auto;
    }

    .readout {
      display: none;
    }
  }
`;
