import { css } from 'lit';

/** For every element that shows the tolerance tape; `--tape-width` sets its width, 8.125em by default. */
export const tapeStyles = css`
  .tape {
    display: block;
    inline-size: var(--tape-width, 8.125em);
    max-inline-size: 100%;
    aspect-ratio: 130 / 18;
    fill: none;
    stroke-width: 1.5;
    forced-color-adjust: auto;
  }

  .tape .scale {
    stroke: var(--rule);
  }

  .tape .band {
    fill: var(--band);
  }

  .tape .limit {
    stroke: var(--blue);
  }

  .tape .mark {
    --mark: var(--ink);
  }

  .tape .mark.bad {
    --mark: var(--wrong);
  }

  .tape .whisker {
    stroke: var(--mark);
    stroke-width: 1.25;
  }

  .tape .tick {
    fill: var(--mark);
    stroke: var(--mark);
    stroke-width: 0.5;
  }

  .tape .doubtful .tick {
    fill: var(--paper);
    stroke-width: 1.5;
  }

  .tape .ring {
    fill: var(--paper);
    stroke: var(--mark);
    stroke-width: 2;
  }

  @media (forced-colors: active) {
    .tape .scale {
      stroke: GrayText;
    }

    .tape .band {
      fill: Canvas;
      stroke: LinkText;
    }

    .tape .limit {
      stroke: LinkText;
    }

    .tape .mark,
    .tape .mark.bad {
      --mark: CanvasText;
    }

    .tape .ring,
    .tape .doubtful .tick {
      fill: Canvas;
    }
  }
`;
