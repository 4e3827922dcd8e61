import { css } from 'lit';

export const bandsProposalsStyles = css`
  /* What is only spoken must not widen the page from inside a table that scrolls. */
  .sideways {
    position: relative;
  }

  .settings {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.75rem;
    margin: 0.75rem 0;
  }

  .learning {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    margin-block: 0.75rem;
  }

  .learning progress {
    accent-color: var(--blue);
  }

  .settings label {
    display: inline-flex;
    align-items: center;
    gap: 0.5rem;
  }

  p.quiet {
    max-inline-size: 110ch;
  }

  .actions {
    position: sticky;
    inset-block-end: 0;
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.25rem;
    padding: 0.625rem 0;
    border-block-start: 1px solid var(--ink);
    background: var(--paper);
  }

  /* The bar at the foot must not hide what has the focus. */
  table :is(input, select, button, a) {
    scroll-margin-block-end: 4rem;
  }

  @media (max-width: 48rem) {
    .actions {
      position: static;
    }
  }

  .actions input {
    inline-size: 12rem;
  }

  th.choose {
    inline-size: 2rem;
    padding-inline-end: 0.5rem;
  }

  input[type='checkbox'] {
    inline-size: 1.25rem;
    block-size: 1.25rem;
    margin: 0.125rem;
    vertical-align: middle;
  }

  :is(th, td) {
    padding-inline-end: 1.125rem;
  }

  :is(th, td):last-child {
    inline-size: auto;
  }

  tbody :is(th, td) {
    vertical-align: top;
  }

  tbody th .quiet {
    font-weight: 400;
  }

  tr.main :is(th, td) {
    padding-block-start: 0.5rem;
  }

  tr.open :is(th, td) {
    border-block-end-color: transparent;
  }

  td.notes {
    padding-block: 0 0.625rem;
    white-space: normal;
  }

  td.notes p {
    max-width: 80ch;
    margin: 0.125rem 0;
  }

  td.wide {
    min-inline-size: 9rem;
    white-space: normal;
  }

  td.method {
    min-inline-size: 13rem;
    white-space: normal;
  }

  @media (min-width: 100rem) {
    td.method {
      min-inline-size: 24rem;
    }
  }

  .screened {
    display: grid;
    grid-template-columns: repeat(5, max-content);
    gap: 0.125rem 1.75rem;
    align-items: center;
    margin: 0.25rem 0;
    padding: 0;
    list-style: none;
  }

  .screened li {
    display: contents;
  }

  .meanwhile {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 0.75rem;
    margin: 0.25rem 0;
  }

  .meanwhile input {
    inline-size: 5.5rem;
    font-family: var(--font-number);
  }

  select.sides {
    min-block-size: 1.5rem;
    padding-block: 0;
    font-size: var(--small);
  }
`;
