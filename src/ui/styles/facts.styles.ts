import { css } from 'lit';

/** A list of names with what each is, side by side. */
export const factsStyles = css`
  .facts div {
    display: flex;
    gap: 0.5rem;
  }

  .facts dt {
    color: var(--quiet);
  }

  .facts dd {
    margin: 0;
  }
`;
