import { css } from 'lit';

export const familyPageStyles = css`
  .filters,
  .choices {
    display: flex;
    flex-wrap: wrap;
    align-items: end;
    gap: 0.5rem 1.5rem;
    margin-block: 0.25rem 0.75rem;
  }

  .choices[hidden] {
    display: none;
  }

  .field {
    display: grid;
    gap: 0.125rem;
    color: var(--quiet);
    font-size: var(--small);
  }

  .field > :is(input, select) {
    color: var(--ink);
    font-size: 1rem;
  }

  input[type='number'],
  input[type='date'] {
    min-height: 1.75rem;
    padding: 0.15rem 0.5rem;
    border: 1px solid var(--quiet);
    border-radius: 2px;
    background: var(--paper);
  }

  input[type='number'] {
    inline-size: 6.5rem;
  }

  .boxes {
    display: flex;
    flex-wrap: wrap;
    gap: 0 0.875rem;
    margin: 0;
    padding: 0;
    border: 0;
  }

  .boxes legend {
    padding: 0;
    color: var(--quiet);
    font-size: var(--small);
  }

  .boxes label {
    display: flex;
    align-items: center;
    gap: 0.25rem;
    min-block-size: 1.75rem;
  }

  .boxes input {
    inline-size: 1.125rem;
    block-size: 1.125rem;
    margin: 0;
  }

  .questions {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1.25rem;
    margin: 0 0 0.75rem;
    padding: 0;
    font-size: var(--small);
    list-style: none;
  }

  summary {
    min-block-size: 1.75rem;
    color: var(--blue);
    cursor: pointer;
  }

  .prices .field {
    grid-template-columns: auto auto;
    align-items: center;
    gap: 0.375rem;
  }

  [slot='words'] {
    margin-block: 0.25rem 0;
  }

  @media print {
    .questions,
    .filters,
    .choices {
      display: none;
    }
  }
`;
