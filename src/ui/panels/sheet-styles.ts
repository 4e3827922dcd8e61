import { css } from 'lit';

/** What every sheet shares: on screen a page of paper's width, in print black on white with rows that stay whole. */
export const sheetStyles = css`
  :host {
    max-width: 60rem;
  }

  header {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    justify-content: space-between;
    gap: 0.25rem 2rem;
    border-bottom: 2px solid var(--ink);
  }

  .controls {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0.25rem 1.5rem;
  }

  section {
    margin: 1rem 0;
  }

  .facts {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(16rem, 1fr));
    gap: 0.125rem 2rem;
    margin: 0.5rem 0;
  }

  p {
    max-width: none;
  }

  ul {
    margin: 0.25rem 0;
    padding-inline-start: 1.25rem;
  }

  ul.lines {
    padding: 0;
    list-style: none;
  }

  ul.lines li {
    display: grid;
    grid-template-columns: 1.25rem 1fr;
    padding: 0.125rem 0;
  }

  td,
  th {
    padding-inline-end: 1rem;
  }

  td.against {
    min-width: var(--tape-width, 8.125em);
    vertical-align: middle;
  }

  .whole {
    white-space: nowrap;
  }

  td.complaint {
    min-width: 9em;
  }

  .cautions {
    padding-top: 0.5rem;
    border-top: 1px solid var(--ink);
    font-size: var(--small);
  }

  @media print {
    .controls {
      display: none;
    }

    .sideways {
      overflow: visible;
    }

    :host {
      max-width: none;
      --tape-width: 7em;
      --small: 8.5pt;
    }

    h2,
    h3 {
      break-after: avoid;
    }

    tr,
    li,
    .cautions,
    .facts {
      break-inside: avoid;
    }

    a {
      color: inherit;
      text-decoration: none;
    }
  }
`;
