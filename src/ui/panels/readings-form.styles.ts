import { css } from 'lit';

/** A form that opens above the readings, between two rules. */
export const readingsFormStyles = css`
  fieldset {
    display: grid;
    gap: 0.5rem;
    margin: 0;
    padding: 0.5rem 0;
    border: solid var(--rule);
    border-width: 1px 0;
    font-size: var(--small);
  }
`;
