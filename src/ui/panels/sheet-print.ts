import { css, type ReactiveController, type ReactiveControllerHost } from 'lit';

/** On paper: black on white whatever the theme, and margins that fit A4 and Letter alike. */
const onPaper = css`
  @page {
    margin: 14mm 15mm 16mm;
  }

  @media print {
    :root:root:root {
      --paper: #fff;
      --ink: #000;
      --quiet: #333;
      --rule: #999;
      --band: #d4d4d4;
      --blue: #000;
      --wrong: #000;
      color-scheme: light;
      font-size: 10pt;
    }
  }
`;

/** In each root above the sheet: what does not lead to it stays off the paper. */
const onlyTheWay = css`
  @media print {
    :host > :not([data-to-print]),
    [data-to-print] > :not([data-to-print]) {
      display: none !important;
    }

    :host,
    [data-to-print] {
      display: block !important;
      height: auto !important;
      min-height: 0 !important;
      margin: 0 !important;
      padding: 0 !important;
    }
  }
`;

/** Has its host printed alone, wherever in the page it stands, for as long as it stands there. */
class PrintAlone implements ReactiveController {
  #undo: readonly (() => void)[] = [];
  readonly #host: ReactiveControllerHost & Element;

  constructor(host: ReactiveControllerHost & Element) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    const undo: (() => void)[] = [];
    for (let node: Node | null = this.#host; node !== null; node = above(node)) {
      if (node instanceof Element) undo.push(mark(node));
      else if (node instanceof ShadowRoot) undo.push(adopt(node, onlyTheWay.styleSheet));
      else if (node instanceof Document) undo.push(adopt(node, onPaper.styleSheet), adopt(node, onlyTheWay.styleSheet));
    }
    this.#undo = undo;
  }

  hostDisconnected(): void {
    for (const undo of this.#undo) undo();
    this.#undo = [];
  }
}

/** Has a host printed alone, wherever in the page it stands. */
export function printAlone(host: ReactiveControllerHost & Element): void {
  new PrintAlone(host);
}

function above(node: Node): Node | null {
  return node instanceof ShadowRoot ? node.host : node.parentNode;
}

function mark(element: Element): () => void {
  element.setAttribute('data-to-print', '');
  return () => {
    element.removeAttribute('data-to-print');
  };
}

function adopt(root: DocumentOrShadowRoot, sheet: CSSStyleSheet | undefined): () => void {
  if (sheet === undefined) return () => undefined;
  root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet];
  return () => {
    root.adoptedStyleSheets = root.adoptedStyleSheets.filter((one) => one !== sheet);
  };
}
