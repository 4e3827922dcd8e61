import { css } from 'lit';

export const readingsFilterStyles = css`
  section {
    display: flex;
    align-items: end;
    gap: 1.5rem;
    padding-block: 0.5rem 0.75rem;
    border-block-end: 1px solid var(--rule);
    font-size: var(--small);
  }

  fieldset {
    flex: 1;
    min-inline-size: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }

  legend {
    padding: 0;
  }

  ul {
    columns: 13rem;
    column-gap: 2rem;
    max-block-size: 14rem;
    margin: 0.25rem 0 0;
    padding: 0;
    overflow-y: auto;
    list-style: none;
  }

  li {
    break-inside: avoid;
  }

  li label {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    min-block-size: 1.625rem;
  }

  .search {
    display: flex;
    align-items: center;
    gap: 0.75rem;
    margin-block: 0.25rem;
  }

  .value {
    overflow-wrap: anywhere;
    unicode-bidi: isolate;
  }

  .figures {
    font-family: var(--font-number);
  }

  input[type='checkbox'] {
    flex: none;
    inline-size: 1.0625rem;
    block-size: 1.0625rem;
    margin: 0;
    accent-color: var(--blue);
  }

  .range {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    margin-block-start: 0.25rem;
  }

  .range p {
    margin: 0;
  }

  input[type='datetime-local'] {
    min-block-size: 1.75rem;
    padding: 0.15rem 0.5rem;
    border: 1px solid var(--quiet);
    border-radius: 2px;
    background: var(--paper);
  }

  input[aria-invalid='true'] {
    border-color: var(--wrong);
  }
`;
