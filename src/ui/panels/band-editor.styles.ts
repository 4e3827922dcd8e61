import { css } from 'lit';

export const bandEditorStyles = css`
  .crumbs {
    margin: 0 0 0.25rem;
  }

  nav.stages {
    display: flex;
    flex-wrap: wrap;
    gap: 0.125rem 1.25rem;
    margin: 0.25rem 0 0;
  }

  nav.stages a {
    display: inline-block;
    min-block-size: 1.5rem;
  }

  nav.stages a[aria-current='true'] {
    color: inherit;
    font-weight: 600;
    text-decoration: none;
  }

  bt-reading-strip {
    margin: 0.5rem 0 1.25rem;
  }

  section.what {
    margin-block-start: 1rem;
  }

  section.what p {
    max-inline-size: none;
  }

  .beside {
    display: grid;
    grid-template-columns: minmax(20rem, 26rem) minmax(0, 1fr);
    gap: 1.5rem 3.5rem;
    align-items: start;
    padding-block-start: 1rem;
    border-block-start: 1px solid var(--ink);
  }

  @media (max-width: 60rem) {
    .beside {
      grid-template-columns: minmax(0, 1fr);
    }
  }

  .fields {
    display: grid;
    grid-template-columns: max-content minmax(0, 1fr);
    gap: 0.5rem 1rem;
    align-items: center;
    margin: 0.75rem 0;
  }

  .fields :is(input[type='text'], select) {
    inline-size: 100%;
  }

  .fields input.quantity {
    font-family: var(--font-number);
  }

  input[aria-invalid='true'] {
    border-color: var(--wrong);
    outline-color: var(--wrong);
  }

  .says {
    min-block-size: 1.5rem;
    margin: 0.25rem 0 0.5rem;
  }

  .actions {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.25rem;
  }

  .results > * + * {
    margin-block-start: 1.25rem;
  }

  .results table {
    inline-size: auto;
    min-inline-size: min(100%, 34rem);
  }

  .results td.wraps {
    min-inline-size: 9rem;
  }

  .results td.wraps:last-child {
    inline-size: auto;
  }

  .proposal {
    margin-block: 0.75rem 0;
  }
`;
