import { css } from 'lit';

export const readingStripStyles = css`
  /* On a narrow screen the strip scrolls by itself. */
  .plot {
    position: relative;
    min-inline-size: 0;
    overflow-x: auto;
  }

  .plot > svg {
    min-inline-size: 26.5rem;
    user-select: none;
  }

  svg {
    display: block;
    inline-size: 100%;
    overflow: visible;
    font-size: 0.875rem;
    forced-color-adjust: auto;
  }

  canvas {
    position: absolute;
    inset-block-start: var(--canvas-top);
    inset-inline-start: var(--canvas-left);
    inline-size: var(--canvas-width);
    block-size: var(--canvas-height);
    pointer-events: none;
  }

  text {
    fill: var(--ink);
    dominant-baseline: central;
  }

  text.name {
    font-weight: 600;
  }

  text.quiet,
  text.tick {
    fill: var(--quiet);
  }

  text.tick {
    text-anchor: middle;
  }

  text.end {
    text-anchor: end;
  }

  .rule {
    stroke: var(--rule);
  }

  .axis {
    stroke: var(--ink);
  }

  .present {
    fill: var(--band);
  }

  .draft {
    fill: none;
    stroke: var(--ink);
    stroke-dasharray: 5 4;
  }

  .marks {
    fill: none;
    stroke-width: 1.25;
  }

  .good {
    stroke: var(--blue);
  }

  .bad {
    stroke: var(--wrong);
  }

  .unknown {
    stroke: var(--quiet);
  }

  .handle {
    cursor: ew-resize;
    outline: none;
    touch-action: none;
  }

  .handle .target {
    fill: transparent;
  }

  .handle .line {
    stroke: var(--ink);
    stroke-width: 2;
  }

  .handle .grip {
    fill: var(--ink);
    stroke: var(--paper);
  }

  .handle:hover .grip,
  .handle:focus-visible .grip {
    fill: var(--blue);
  }

  .handle:hover .line,
  .handle:focus-visible .line {
    stroke: var(--blue);
  }

  .handle:focus-visible .target {
    stroke: var(--blue);
    stroke-width: 2;
  }

  .handle text {
    font-family: var(--font-number);
    paint-order: stroke;
    stroke: var(--paper);
    stroke-width: 4;
    stroke-linejoin: round;
  }

  .below {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1.5rem;
    margin: 0.25rem 0 0;
    padding: 0;
    font-size: var(--small);
    list-style: none;
  }

  .below svg {
    display: inline-block;
    inline-size: 1rem;
    block-size: 0.875rem;
    vertical-align: -0.125rem;
  }

  .below .sample {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.25;
  }

  .below li:last-child {
    margin-inline-start: auto;
  }
`;
