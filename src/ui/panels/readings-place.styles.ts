import { css } from 'lit';

export const readingsPlaceStyles = css`
  :host {
    display: flex;
    flex: 1 0 auto;
    flex-direction: column;
  }

  .narrow,
  .asked {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.125rem 1rem;
    font-size: var(--small);
  }

  .narrow label {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    margin-inline-start: auto;
  }

  .narrow button[aria-expanded='true'] {
    color: var(--ink);
    font-weight: 600;
  }

  .arrange {
    margin-inline-start: auto;
  }

  .narrow label.group {
    margin: 0;
  }

  .asked {
    min-block-size: 2.25rem;
  }

  .asked ul {
    display: contents;
    list-style: none;
  }

  .asked li {
    display: flex;
    align-items: center;
    gap: 0.625rem;
    border-block-end: 1px solid var(--rule);
    unicode-bidi: isolate;
  }

  .asked p {
    margin: 0;
  }

  bt-readings-grid {
    flex: 1 0 0;
    min-block-size: min-content;
    margin-block-start: 0.25rem;
  }

  bt-readings-details {
    flex: none;
    max-block-size: 40dvh;
    overflow-y: auto;
    border-block-start: 1px solid var(--rule);
  }
`;
