import { css } from 'lit';

export const shiftPlaceStyles = css`
  /* Focus is brought here to go on from, not to act on. */
  h1:focus-visible {
    outline: none;
  }

  .sums {
    max-width: none;
  }

  section,
  bt-names-list,
  bt-shift-imports,
  bt-shift-memory,
  bt-shift-history,
  bt-set-aside-list {
    margin: 1.5rem 0 2rem;
  }

  li {
    margin: 0.25rem 0;
    overflow-wrap: anywhere;
  }

  .open {
    display: flex;
    flex-wrap: wrap;
    gap: 0 2rem;
    margin: 0;
    padding: 0;
    list-style: none;
  }

  .open button {
    font-weight: 600;
  }

  .choice {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    margin: 0;
    padding: 0 0 1rem;
    border: 0;
  }

  .choice legend {
    float: inline-start;
    padding: 0;
  }

  label {
    display: inline-flex;
    align-items: center;
    gap: 0.375rem;
    min-height: 1.5rem;
  }
`;
