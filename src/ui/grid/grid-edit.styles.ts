import { css } from 'lit';

/** Cells that were or are being edited, what is wrong with them, and blocks that wait to be pasted. */
export const gridEditStyles = css`
  /* What was edited by hand is marked at its edge; the original stands in its title and is said with it. */
  .changed {
    box-shadow: inset 3px 0 var(--blue);
  }

  .row [role='gridcell'].changed {
    padding-inline-start: 0.5em;
    text-decoration: underline dotted;
    text-underline-offset: 0.2em;
  }

  .row [role='gridcell'].editing {
    z-index: 2;
    overflow: visible;
    padding: 0;
  }

  .editor {
    inline-size: 100%;
    min-inline-size: 9em;
    block-size: 100%;
    border: 0;
    padding-inline: 0.25em;
    outline: 2px solid var(--blue);
    outline-offset: -2px;
    background: var(--lifted);
    font-family: var(--font-number);
  }

  .row [role='gridcell'].editing:not([data-pin]) {
    position: relative;
  }

  .fault:not(:empty) {
    position: relative;
    display: block;
    inline-size: max-content;
    max-inline-size: 26em;
    padding: 0.25em 0.5em;
    border: 1px solid var(--wrong);
    background: var(--paper);
    color: var(--wrong);
    line-height: 1.35;
    text-align: start;
    white-space: normal;
  }

  .fault.above:not(:empty) {
    position: absolute;
    inset-block-end: 100%;
    inset-inline-start: 0;
  }

  .edits {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0.125em 1.75em;
    margin: 0;
    padding-block-end: 0.375em;
    color: var(--quiet);
  }

  .edits label,
  .manner label,
  .headers {
    display: inline-flex;
    align-items: center;
    gap: 0.375em;
    min-block-size: 1.5rem;
  }

  .edits .why {
    inline-size: 18em;
    max-inline-size: 100%;
    min-block-size: 1.5rem;
  }

  .manner {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25em 1.5em;
    margin: 0;
  }

  .new-row {
    display: flex;
    flex-wrap: wrap;
    align-items: flex-start;
    gap: 0.375em 0.75em;
    padding-block: 0.5em;
    border-block-start: 1px solid var(--ink);
  }

  .new-row label {
    display: grid;
    color: var(--quiet);
  }

  .new-row input,
  .new-row select,
  .edits .why {
    border: 1px solid var(--quiet);
    background: var(--lifted);
    color: var(--ink);
    font-family: var(--font-number);
  }

  .new-row input,
  .new-row select {
    min-inline-size: 9em;
    min-block-size: 1.75rem;
  }

  .new-row input {
    inline-size: 9em;
  }

  .new-row [name='time'] {
    inline-size: 13em;
  }

  .new-row label .wrong {
    max-inline-size: 18em;
    font-size: var(--small);
  }

  .new-row .ways {
    display: flex;
    gap: 0.75em;
    align-self: flex-end;
  }

  .new-row p {
    flex-basis: 100%;
    margin: 0;
  }

  .preview {
    max-block-size: 14em;
    overflow-y: auto;
    padding-block: 0.5em;
    border-block-start: 1px solid var(--ink);
  }

  .preview ul {
    margin: 0 0 0.5em;
    padding: 0;
    list-style: none;
  }
`;
