import { css } from 'lit';

export const gridStyles = css`
  :host {
    display: grid;
    grid-template-rows: minmax(14em, 1fr) auto;
    grid-auto-rows: auto;
    grid-template-columns: minmax(0, 1fr);
    container-type: inline-size;
    font-size: 0.9375rem;
  }

  .scroller {
    --time-width: 12.25em;
    --tape-width: 7.75em;

    position: relative;
    overflow: auto;
    /* Its own size never follows from how many rows there are. */
    contain: strict;
    overflow-anchor: none;
    border-block-end: 1px solid var(--ink);
    outline: none;
  }

  .sizer {
    min-inline-size: var(--least-width);
    block-size: var(--scroll-height, 0);
  }

  /* The rows stand still in the scroller and are drawn anew for each place, so that none is ever scrolled in blank. */
  .view {
    position: sticky;
    inset-block-start: 0;
    overflow: clip;
    block-size: var(--view-height, 100%);
  }

  .probe {
    position: absolute;
    visibility: hidden;
    inline-size: max-content;
    pointer-events: none;
  }

  [role='row'] {
    display: grid;
    grid-template-columns: var(--tracks);
    column-gap: var(--gap);
  }

  .probe {
    block-size: 1.875em;
  }

  /* Whole pixels of the probe's height: parts of pixels would add up over the rows. */
  [role='gridcell'],
  [role='columnheader'] {
    block-size: var(--row-height, 1.875em);
    line-height: var(--row-height, 1.875em);
  }

  [role='gridcell'],
  [role='columnheader'] {
    min-inline-size: 0;
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
    unicode-bidi: isolate;
    outline-offset: -2px;
    cursor: default;
    user-select: none;
  }

  [role='gridcell'] {
    border-block-end: 1px solid var(--rule);
    margin-inline-end: calc(-1 * var(--gap));
    padding-inline-end: var(--gap);
  }

  [role='gridcell']:last-child {
    margin-inline-end: 0;
    padding-inline-end: 0;
  }

  .header {
    position: relative;
    z-index: 1;
    background: var(--paper);
    border-block-end: 1px solid var(--ink);
  }

  [role='columnheader'] {
    position: relative;
    color: var(--quiet);
    /* One font size for all cells of a column: the places of pinned ones are reckoned in it. */
  }

  .title {
    font-size: 0.9375em;
  }

  /* What a pointer takes hold of to make a column wider; keys do it from the header. */
  .edge {
    position: absolute;
    inset-block: 0;
    inset-inline-end: 0;
    inline-size: 0.625em;
    border-inline-end: 1px solid transparent;
    cursor: col-resize;
    touch-action: none;
  }

  [role='columnheader']:hover .edge {
    border-inline-end-color: var(--rule);
  }

  [role='columnheader'].target {
    box-shadow: inset 2px 0 var(--blue);
  }

  [data-pin] {
    position: sticky;
    z-index: 1;
    background: var(--paper);
  }

  [data-pin='0'] {
    inset-inline-start: var(--pin-0);
  }

  [data-pin='1'] {
    inset-inline-start: var(--pin-1);
  }

  [data-pin='2'] {
    inset-inline-start: var(--pin-2);
  }

  [data-pin='3'] {
    inset-inline-start: var(--pin-3);
  }

  [role='columnheader'][data-derived] {
    padding-inline-end: 0.25em;
    text-align: end;
  }

  .group [role='gridcell'].group-line {
    display: grid;
    grid-template-columns:
      0.5em minmax(6em, calc(13em * var(--stretch, 1))) calc(8em * var(--stretch, 1)) calc(17em * var(--stretch, 1))
      calc(7em * var(--stretch, 1)) calc(8.5em * var(--stretch, 1)) minmax(0, 1fr);
    column-gap: 1em;
    grid-column: 1 / -1;
    margin: 0;
    background: var(--lifted);
    cursor: pointer;
  }

  .group-line > * {
    overflow: hidden;
    text-overflow: ellipsis;
  }

  .group-line .fold,
  .group-line .fact {
    color: var(--quiet);
    font-variant-numeric: tabular-nums;
  }

  [role='columnheader'][data-sort] {
    cursor: pointer;
  }

  [role='columnheader'][data-sort]:hover,
  [role='columnheader'][aria-sort],
  [role='columnheader'].sorted {
    color: var(--ink);
  }

  .body {
    translate: 0 var(--shift, 0);
  }

  .pinned {
    position: absolute;
    inset-inline: 0;
    inset-block-start: -10em;
  }

  .row:hover [role='gridcell'] {
    background: var(--lifted);
  }

  .row [aria-selected='true'] {
    background: color-mix(in srgb, var(--band) 50%, var(--paper));
  }

  /* On the shade of a selection what is wrong is written darker (in the dark lighter), so that it stays readable. */
  .row [aria-selected='true'] .wrong {
    color: color-mix(in srgb, var(--wrong) 75%, var(--ink));
  }

  .row.current [role='gridcell'] {
    box-shadow:
      inset 0 1px var(--blue),
      inset 0 -1px var(--blue);
  }

  b {
    font-weight: 600;
  }

  [data-column='time'],
  [data-column='stage'],
  [data-column='mode'],
  [data-column='meter'],
  [data-column='origin'] {
    color: var(--quiet);
  }

  .figures,
  .reading {
    font-family: var(--font-number);
    font-variant-numeric: tabular-nums;
  }

  .reading {
    display: grid;
    grid-template-columns: minmax(0, 1fr) calc(var(--fraction, 5ch) * var(--stretch, 1)) calc(
        var(--unit, 2.75ch) * var(--stretch, 1)
      );
  }

  /* A word has no decimal mark to stand on. */
  .reading.word {
    grid-template-columns: minmax(0, 1fr) calc(var(--unit, 2.75ch) * var(--stretch, 1));
  }

  [data-column='margin'],
  [data-column='change'] {
    --fraction: 4.5ch;
  }

  [data-column='margin-in-u'],
  [data-column='deviation'],
  [data-column='robust-z'] {
    --fraction: 2ch;
    --unit: 1.75ch;
  }

  [data-column='robust-z'] {
    --unit: 0ch;
  }

  [data-column='ratio'] {
    --fraction: 6ch;
    --unit: 0ch;
  }

  .reading .whole {
    justify-self: end;
  }

  .reading.word .whole {
    font-family: var(--font-text);
  }

  .reading .unit {
    color: var(--quiet);
    font-family: var(--font-text);
  }

  [role='columnheader'][data-column='reading'] {
    padding-inline-end: 2.5em;
    text-align: end;
  }

  [data-column='tape'] {
    display: flex;
    align-items: center;
  }

  .verdict {
    display: flex;
    gap: 0.625em;
  }

  .verdict > span {
    flex: none;
    inline-size: 1em;
    text-align: center;
  }

  .origin {
    display: flex;
  }

  .origin .file {
    overflow: hidden;
    text-overflow: ellipsis;
  }

  .empty {
    padding-block: 1em;
  }

  .waiting {
    display: inline-block;
    inline-size: 60%;
    block-size: 2px;
    vertical-align: middle;
    background: var(--rule);
  }

  .under {
    display: flex;
    align-items: baseline;
    justify-content: space-between;
    gap: 0 1.75em;
  }

  .copies {
    display: flex;
    flex: none;
    gap: 1.25em;
    padding-block: 0.25em;
  }

  .about {
    display: flex;
    flex-wrap: wrap;
    gap: 0.125em 1.75em;
    max-inline-size: none;
    min-block-size: 2.25em;
    margin: 0;
    padding-block: 0.375em;
    color: var(--quiet);
  }

  .about b {
    color: var(--ink);
  }

  @container (max-width: 48em) {
    .under {
      flex-wrap: wrap;
    }
  }

  @container (max-width: 96em) {
    .scroller {
      --time-width: 9em;
    }

    .year {
      display: none;
    }
  }

  /* The system's colours leave no shade to select with. */
  @media (forced-colors: active) {
    .row [aria-selected='true'] {
      border-block-end: 3px solid Highlight;
    }

    .row.current [role='gridcell'] {
      border-block-start: 1px solid Highlight;
    }

    [role='columnheader'].target {
      border-inline-start: 2px solid Highlight;
    }
  }
`;
