import { css } from 'lit';

/** For the small tables that are typed into. */
export const tableFormStyles = css`
  /* What is only spoken must not widen the page from inside a table that scrolls. */
  .sideways {
    position: relative;
  }

  section {
    margin: 1.5rem 0;
  }

  .heading {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.5rem;
    margin: 0.75rem 0;
  }

  .heading label {
    display: inline-flex;
    align-items: center;
    gap: 0.5rem;
  }

  .sheets {
    display: grid;
    grid-template-columns: minmax(0, 4fr) minmax(0, 3fr);
    gap: 0 3.5rem;
    align-items: start;
  }

  @media (max-width: 64rem) {
    .sheets {
      grid-template-columns: minmax(0, 1fr);
    }
  }

  :is(th, td) {
    padding: 0.1875rem 0.75rem 0.1875rem 0;
  }

  td :is(input[type='text'], select) {
    inline-size: 100%;
    min-inline-size: 4.5rem;
  }

  td.short input {
    min-inline-size: 3.5rem;
  }

  :is(th, td):last-child:not(.number) {
    inline-size: 5rem;
  }

  input[type='checkbox'] {
    inline-size: 1.25rem;
    block-size: 1.25rem;
  }

  .actions {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.25rem;
    margin: 1rem 0;
  }

  ul.notes {
    max-inline-size: 80ch;
    margin: 0.5rem 0;
    padding-inline-start: 1.25rem;
  }
`;
