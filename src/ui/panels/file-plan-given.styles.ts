import { css } from 'lit';

/** Fields under their names, for what is stated where no column says it. */
export const givenFieldStyles = css`
  label {
    display: grid;
    gap: 0.125rem;
    font-size: var(--small);
  }

  input,
  select {
    font-size: 1rem;
  }
`;
