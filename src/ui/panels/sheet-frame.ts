import { html, type TemplateResult } from 'lit';
import { CAUTIONS } from '../cautions.ts';

/** What a sheet is called, and the way back from it. */
export interface SheetHead {
  readonly title: string;
  readonly kind: string;
  /** Address of what the sheet is of, and the words that lead there. */
  readonly back: readonly [href: string, text: string];
}

/** The head of a sheet; the way back, what the sheet asks for, and printing are for the screen alone. */
export function sheetHead({ title, kind, back: [href, text] }: SheetHead, controls?: TemplateResult) {
  return html`<p class="controls">
      <a href=${href}>${text}</a>
      ${controls}
      <button type="button" @click=${print}>Print, or save as PDF</button>
    </p>
    <header>
      <h1>${title}</h1>
      <span>${kind}</span>
    </header>`;
}

/** The cautions of live and primary-side work, which stand on every sheet. */
export function sheetCautions(title: string) {
  return html`<section class="cautions">
    <h2>${title}</h2>
    <ul>
      ${CAUTIONS.map((caution) => html`<li>${caution}</li>`)}
    </ul>
    <p>Local electrical codes and licensed practice come before anything on this sheet.</p>
  </section>`;
}

function print(): void {
  window.print();
}
