import { css } from 'lit';

export const failureBarsStyles = css`
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

  .segment.inferred {
    fill: url('#hatch');
    stroke-dasharray: 3 2;
  }

  .hatch {
    fill: none;
    stroke: var(--blue);
    stroke-width: 1.25;
  }

  .good {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.5;
    stroke-dasharray: 2 2;
  }

  @media (forced-colors: active) {
    .segment {
      fill: Highlight;
      stroke: CanvasText;
    }

    .segment.leaky {
      fill: GrayText;
    }

    .segment.open,
    .diamond {
      fill: Canvas;
    }

    .segment.failed {
      fill: CanvasText;
    }

    .segment.inferred {
      fill: url('#hatch');
    }

    .hatch,
    .good {
      stroke: CanvasText;
    }
  }
`;
