import { html, LitElement } from 'lit';
import { afterEach, expect, test } from 'vitest';
import { SightController } from '../../src/ui/controllers/sight-controller.ts';
import { eventually } from '../support/eventually.ts';
import { frames } from '../support/frames.ts';

/** A page whose second part stands far below what is in sight. */
class TallPage extends LitElement {
  private readonly sight = new SightController<object>(this, () => [...this.renderRoot.querySelectorAll('p')]);

  /** What each part showed at each drawing. */
  readonly drawings: (readonly object[])[] = [];
  version: object = {};

  override render() {
    const versions = this.sight.versions(this.version, 2);
    this.drawings.push(versions);
    return versions.map((_, at) => html`<p id=${at}>part</p>`);
  }
}

customElements.define('tall-page', TallPage);

async function showTall(top: number): Promise<TallPage> {
  const page = new TallPage();
  document.body.append(page);
  await page.updateComplete;
  page.renderRoot.querySelector<HTMLElement>('[id="1"]')!.style.marginTop = `${top}px`;
  return page;
}

afterEach(() => {
  document.body.replaceChildren();
});

test('a new version is drawn where it is in sight at once, and below it after the next frame', async () => {
  const page = await showTall(20_000);
  const [first, second] = [page.version, {}];
  page.version = second;
  page.requestUpdate();
  await page.updateComplete;
  expect(page.drawings).toHaveLength(2);
  expect(page.drawings.at(-1)![0]).toBe(second);
  expect(page.drawings.at(-1)![1]).toBe(first);
  await eventually(() => {
    expect(page.drawings).toHaveLength(3);
  });
  expect(page.drawings.at(-1)!.every((version) => version === second)).toBe(true);
});

test('what is all in sight is drawn once', async () => {
  const page = await showTall(10);
  page.version = {};
  page.requestUpdate();
  await page.updateComplete;
  expect(page.drawings.at(-1)!.every((version) => version === page.version)).toBe(true);
  await frames(3);
  expect(page.drawings).toHaveLength(2);
});

test('a version that a newer one has overtaken is drawn no more', async () => {
  const page = await showTall(20_000);
  const overtaken = (page.version = {});
  page.requestUpdate();
  await page.updateComplete;
  page.version = {};
  page.requestUpdate();
  await eventually(() => {
    expect(page.drawings.at(-1)!.every((version) => version === page.version)).toBe(true);
  });
  expect(page.drawings.map((versions) => versions[1])).not.toContain(overtaken);
});
