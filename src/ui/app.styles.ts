import { css } from 'lit';

export const appStyles = css`
  :host {
    display: flex;
    flex-direction: column;
    min-height: 100dvh;
  }

  /* The grid scrolls inside the window, so the page itself must not. */
  :host([place='readings']) {
    height: 100dvh;
  }

  header {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 2rem;
    padding: 0.5rem var(--edge);
    border-bottom: 2px solid var(--ink);
  }

  .name {
    font-size: 1.25rem;
    font-weight: 600;
  }

  nav {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1.5rem;
  }

  nav a {
    padding: 0.375rem 0 calc(0.25rem + 3px);
    color: inherit;
    text-decoration: none;
  }

  nav a:hover {
    padding-bottom: 0.25rem;
    border-bottom: 3px solid var(--rule);
  }

  nav a[aria-current='page'] {
    padding-bottom: 0.25rem;
    border-bottom: 3px solid var(--blue);
    font-weight: 600;
  }

  /* Bold is wider than plain: the bold text's room is kept, so that the others stand still. */
  nav a::after {
    display: block;
    height: 0;
    overflow: hidden;
    visibility: hidden;
    content: attr(data-text);
    font-weight: 600;
  }

  nav .open {
    display: inline-block;
    min-width: 1.25rem;
    padding: 0 0.25rem;
    border-radius: 0.625rem;
    background: var(--blue);
    color: var(--paper);
    font-size: var(--small);
    font-weight: 600;
    line-height: 1.25rem;
    text-align: center;
  }

  .bench {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    margin-inline-start: auto;
    font-size: var(--small);
  }

  .bench p {
    margin: 0;
  }

  .strip {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    padding: 0.5rem var(--edge);
    border-bottom: 1px solid var(--rule);
  }

  .strip p {
    max-width: 100ch;
    margin: 0;
    overflow-wrap: anywhere;
  }

  progress {
    width: 12rem;
    accent-color: var(--blue);
  }

  main {
    display: flex;
    flex: 1 1 0;
    flex-direction: column;
    min-height: 20rem;
    padding: 1rem var(--edge) 0;
  }

  /* Where the window is too small for that, or the text too large, the page scrolls after all. */
  :host([place='readings']) main {
    min-height: min-content;
  }

  /* Focus is brought here to go on from, not to act on. */
  main:focus-visible {
    outline: none;
  }

  main > * {
    flex: 1 1 auto;
    min-height: 0;
  }

  .drop {
    position: fixed;
    inset: 0;
    z-index: 10;
    display: grid;
    place-content: center;
    gap: 0.5rem;
    padding: 2rem;
    border: 3px solid var(--blue);
    background: color-mix(in srgb, var(--paper) 92%, transparent);
    text-align: center;
    pointer-events: none;
  }

  .drop p {
    margin: 0;
  }

  .drop p:first-child {
    font-size: 1.5rem;
    font-weight: 600;
  }
`;
