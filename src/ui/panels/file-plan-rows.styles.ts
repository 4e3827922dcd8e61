import { css } from 'lit';

export const filePlanRowsStyles = css`
  /* What is only spoken stands in it, and must not widen the page. */
  .sideways {
    position: relative;
  }

  table {
    width: auto;
    min-width: 50%;
    font-size: var(--small);
  }

  th,
  td {
    min-width: 6rem;
    max-width: 18rem;
    padding: 0.2rem 1.25rem 0.2rem 0;
  }

  :is(th, td):last-child:not(.number) {
    width: auto;
  }

  td.moment {
    min-width: 13.5rem;
  }

  thead th {
    color: var(--ink);
    font-size: 1rem;
    font-weight: 600;
    overflow: hidden;
    text-overflow: ellipsis;
  }

  thead th:first-child,
  tbody th {
    min-width: 4rem;
    color: var(--quiet);
    font-size: var(--small);
    font-weight: 400;
  }

  .use td {
    border-bottom-color: var(--ink);
    white-space: normal;
  }

  .use th {
    border-bottom-color: var(--ink);
  }

  .use select,
  .use input {
    width: 100%;
    min-width: 8rem;
    min-height: 1.5rem;
    padding: 0 0.25rem;
  }

  .why {
    display: block;
    min-width: 8rem;
    margin-top: 0.125rem;
    color: var(--quiet);
    overflow-wrap: anywhere;
  }

  .why b {
    color: var(--ink);
  }

  .more {
    display: grid;
    grid-template-columns: auto 1fr;
    align-items: center;
    gap: 0.125rem 0.375rem;
    margin-top: 0.25rem;
  }

  .cell {
    font-family: var(--font-number);
    white-space: pre-wrap;
    overflow-wrap: anywhere;
    unicode-bidi: isolate;
  }

  .read {
    display: block;
    color: var(--quiet);
    font-family: var(--font-number);
    white-space: normal;
    overflow-wrap: anywhere;
  }

  .doubt {
    color: var(--ink);
    font-weight: 600;
  }

  .ignored {
    color: var(--quiet);
  }

  tr.aside :is(th, td) {
    border-bottom: 0;
  }

  .reason {
    max-width: none;
    padding-bottom: 0.375rem;
    white-space: normal;
  }

  /* What has the focus is not hidden behind the actions at the foot. */
  select,
  input {
    scroll-margin-bottom: 5rem;
  }
`;
