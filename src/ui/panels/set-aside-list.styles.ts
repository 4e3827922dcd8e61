import { css } from 'lit';

export const setAsideListStyles = css`
  /* What is only spoken stands in it, and must not widen the page. */
  .sideways {
    position: relative;
  }

  h2:focus-visible {
    outline: none;
  }

  .all {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    margin: 0 0 0.5rem;
  }

  .ways {
    display: flex;
    gap: 1rem;
  }

  .ways button.plain {
    min-height: 1.5rem;
  }

  .file {
    min-width: 9rem;
    max-width: 14rem;
    overflow-wrap: anywhere;
    white-space: normal;
  }

  td.reason {
    min-width: 18rem;
  }

  td.content {
    width: 100%;
    min-width: 18rem;
    white-space: normal;
  }

  td.own-text {
    white-space: pre-wrap;
  }

  th:last-child,
  td:last-child:not(.number) {
    width: auto;
  }

  textarea {
    display: block;
    width: 100%;
    padding: 0.25rem 0.5rem;
    border: 1px solid var(--quiet);
    border-radius: 2px;
    background: var(--paper);
    color: inherit;
    font-family: var(--font-number);
    font-size: var(--small);
    line-height: 1.4;
    resize: vertical;
    tab-size: 3;
  }

  #how {
    font-size: var(--small);
  }
`;
