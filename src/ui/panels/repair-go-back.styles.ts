import { css } from 'lit';

export const goBackStyles = css`
  ul {
    margin: 0.5rem 0 0;
    padding: 0;
    list-style: none;
  }

  li.line {
    display: grid;
    grid-template-columns: 1.5rem minmax(0, 1fr) auto;
    gap: 0 0.5rem;
    padding: 0.375rem 0;
    border-top: 1px solid var(--rule);
  }

  li.line:last-child {
    border-bottom: 1px solid var(--rule);
  }

  .line p {
    max-width: none;
    margin: 0;
  }

  .must {
    font-weight: 600;
  }

  .standing {
    margin-inline-start: 0.5rem;
  }

  .more {
    grid-column: 2 / -1;
  }

  form {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0.25rem 0.75rem;
    margin: 0.25rem 0;
  }

  form input {
    flex: 1 1 20rem;
  }

  summary {
    width: fit-content;
    min-height: 1.5rem;
    color: var(--blue);
    cursor: pointer;
  }

  details ul {
    margin: 0 0 0.25rem;
  }

  details li {
    display: grid;
    grid-template-columns: 10rem 10rem minmax(7rem, auto) 8.5rem minmax(7rem, auto) 1fr;
    gap: 0 1rem;
    align-items: center;
    padding: 0.125rem 0;
  }

  button.plain {
    min-height: 1.5rem;
    align-self: start;
  }
`;
