import { css } from 'lit';

const light = css`
  --paper: #fbfaf6;
  --ink: #1d2430;
  --quiet: #5d6470;
  --rule: #d9d5ca;
  --band: #cfe3f1;
  --blue: #0072b2;
  --wrong: #c24e00;
  --lifted: #ffffff;
  color-scheme: light;
`;

const dark = css`
  --paper: #16191d;
  --ink: #e9e6df;
  --quiet: #a8a59d;
  --rule: #343941;
  --band: #27475a;
  --blue: #56b4e9;
  --wrong: #ff8a4c;
  --lifted: #1e2227;
  color-scheme: dark;
`;

/**
 * Colours, type and the page's ground, for the whole document. The system's theme holds unless `data-theme` on the root
 * element says `light` or `dark`; paper is always light.
 */
const tokens = css`
  :root {
    ${light}
    --font-text: 'Atkinson Hyperlegible Next', system-ui, 'Segoe UI', 'DejaVu Sans', sans-serif;
    --font-number: 'Atkinson Hyperlegible Mono', ui-monospace, 'DejaVu Sans Mono', monospace;
    --small: 0.875rem;
    --edge: clamp(1rem, 2vw, 2rem);
  }

  @media screen and (prefers-color-scheme: dark) {
    :root:not([data-theme='light']) {
      ${dark}
    }
  }

  @media screen {
    :root[data-theme='dark'] {
      ${dark}
    }
  }

  body {
    margin: 0;
    background: var(--paper);
    color: var(--ink);
    font: 1rem/1.4 var(--font-text);
  }
`;

/** Gives a document its tokens; once is enough. */
export function adoptTokens(root: Document): void {
  const sheet = tokens.styleSheet;
  if (sheet !== undefined && !root.adoptedStyleSheets.includes(sheet)) root.adoptedStyleSheets.push(sheet);
}
