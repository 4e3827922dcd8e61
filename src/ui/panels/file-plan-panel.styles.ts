import { css } from 'lit';

export const filePlanPanelStyles = css`
  :host {
    margin: 1rem 0 2rem;
    padding-top: 0.75rem;
    border-top: 3px solid var(--blue);
  }

  h2 {
    overflow-wrap: anywhere;
  }

  h2:focus-visible {
    outline: none;
  }

  p {
    max-width: 90ch;
  }

  .question {
    margin: 0 0 0.75rem;
  }

  bt-file-plan-marks {
    margin: 1rem 0;
    padding: 0.75rem 0;
    border-block: 1px solid var(--rule);
  }

  .actions {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
    padding: 0.75rem 0;
    border-bottom: 1px solid var(--ink);
  }

  .actions p {
    margin: 0;
  }
`;
