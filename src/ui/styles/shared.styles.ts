import { css } from 'lit';

/** What every element of the page shares: text, rules, links, buttons, fields and tables. */
export const shared = css`
  :host {
    display: block;
    color: var(--ink);
    font: 1rem/1.4 var(--font-text);
  }

  :host([hidden]) {
    display: none;
  }

  *,
  ::before,
  ::after {
    box-sizing: border-box;
  }

  h1,
  h2,
  h3 {
    margin: 0;
    font-weight: 600;
    line-height: 1.25;
  }

  h1 {
    font-size: 1.5rem;
  }

  h2 {
    font-size: 1.125rem;
  }

  h3 {
    font-size: 1rem;
  }

  p {
    max-width: 70ch;
    margin: 0.25rem 0 0.75rem;
  }

  a {
    color: var(--blue);
    text-underline-offset: 0.2em;
    text-decoration-thickness: 1px;
  }

  a:hover {
    text-decoration-thickness: 2px;
  }

  button,
  input,
  select {
    font: inherit;
    color: inherit;
  }

  input {
    accent-color: var(--blue);
  }

  button {
    min-height: 1.75rem;
    padding: 0.15rem 0.75rem;
    border: 1px solid var(--quiet);
    border-radius: 2px;
    background: var(--paper);
    cursor: pointer;
  }

  button:hover {
    border-color: var(--ink);
  }

  button.main {
    border-color: var(--blue);
    background: var(--blue);
    color: var(--paper);
    font-weight: 600;
  }

  button.plain {
    padding: 0.15rem 0;
    border: 0;
    background: none;
    color: var(--blue);
    text-align: start;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
  }

  button[disabled] {
    border-color: var(--rule);
    background: none;
    color: var(--quiet);
    cursor: default;
  }

  input[type='search'],
  input[type='text'],
  select {
    min-height: 1.75rem;
    padding: 0.15rem 0.5rem;
    border: 1px solid var(--quiet);
    border-radius: 2px;
    background: var(--paper);
  }

  :focus-visible {
    outline: 2px solid var(--blue);
    outline-offset: 2px;
  }

  .quiet {
    color: var(--quiet);
  }

  .wrong {
    color: var(--wrong);
    font-weight: 600;
  }

  /* Readings and dates, in which every digit has the same room. */
  .figures {
    font-family: var(--font-number);
    white-space: nowrap;
  }

  /* Counts and readings, aligned at their ends. */
  .number {
    font-variant-numeric: tabular-nums;
    text-align: end;
    white-space: nowrap;
  }

  .spoken {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }

  table {
    width: 100%;
    border-collapse: collapse;
  }

  caption {
    padding: 0.25rem 0;
    color: var(--quiet);
    text-align: start;
  }

  th,
  td {
    padding: 0.25rem 1.5rem 0.25rem 0;
    border-bottom: 1px solid var(--rule);
    text-align: start;
    vertical-align: baseline;
    white-space: nowrap;
  }

  td.wraps {
    white-space: normal;
  }

  th:last-child,
  td:last-child {
    padding-inline-end: 0;
  }

  /* A last column of text takes what room is left, so that the others stand close together. */
  :is(th, td):last-child:not(.number) {
    width: 100%;
  }

  table.narrow {
    width: auto;
    min-width: 50%;
  }

  thead th {
    border-bottom-color: var(--ink);
    color: var(--quiet);
    font-size: var(--small);
    font-weight: 400;
  }

  tbody th {
    font-weight: 600;
  }

  td.own-text {
    font-family: var(--font-number);
    font-size: var(--small);
    overflow-wrap: anywhere;
    unicode-bidi: isolate;
    white-space: pre-wrap;
    tab-size: 3;
  }

  .sideways {
    position: relative;
    overflow-x: auto;
  }
`;
