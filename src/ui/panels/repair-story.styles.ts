import { css } from 'lit';

export const storyStyles = css`
  section {
    margin: 1.5rem 0;
  }

  .head {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0.25rem 1.5rem;
  }

  .facts {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 2rem;
    margin: 0.5rem 0 1rem;
  }

  .fraction {
    display: inline-block;
    width: 5ch;
    text-align: start;
  }

  .unit {
    display: inline-block;
    width: 2rem;
    padding-inline-start: 0.375rem;
    text-align: start;
  }

  th[scope='rowgroup'] {
    padding-top: 1rem;
    border-bottom-color: var(--quiet);
  }

  .against {
    min-width: 10rem;
    vertical-align: middle;
  }

  .sign {
    display: inline-block;
    width: 1.25rem;
  }

  @media (min-width: 75rem) {
    .beside {
      display: grid;
      grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
      gap: 0 3rem;
    }
  }

  h3 {
    margin-top: 1rem;
  }
`;
