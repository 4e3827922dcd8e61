/** Properties of style sheets that a drawing carries with it when it leaves the page. */
const CARRIED = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'paint-order',
  'opacity',
  'font-family',
  'font-size',
  'font-weight',
  'font-variant-numeric',
  'text-anchor',
  'dominant-baseline',
] as const;

const MIXED = /^color\(srgb ([\d.e+-]+) ([\d.e+-]+) ([\d.e+-]+)\)$/;

/** A mixed colour as browsers compute it, `color(srgb 1 0.5 0)`, in the form that every program for drawings reads: `rgb(255, 128, 0)`; all else as it is. */
export function plainColour(value: string): string {
  const shares = MIXED.exec(value)?.slice(1);
  return shares === undefined ? value : `rgb(${shares.map((share) => Math.round(Number(share) * 255)).join(', ')})`;
}

/** The text of a file that draws an `<svg>` element as it stands in the page, on the page's ground. */
function svgText(drawing: SVGSVGElement): string {
  const copy = drawing.cloneNode(true) as SVGSVGElement;
  const originals = [drawing, ...drawing.querySelectorAll('*')];
  const copies = [copy, ...copy.querySelectorAll('*')];
  originals.forEach((original, index) => {
    const style = getComputedStyle(original);
    const target = copies[index];
    if (target === undefined) return;
    for (const name of CARRIED) target.setAttribute(name, plainColour(style.getPropertyValue(name)));
    for (const name of ['class', 'tabindex', 'role', 'aria-label']) target.removeAttribute(name);
  });
  const { width, height } = drawing.getBoundingClientRect();
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  ground.setAttribute('width', '100%');
  ground.setAttribute('height', '100%');
  ground.setAttribute('fill', getComputedStyle(drawing).getPropertyValue('--paper').trim() || 'white');
  copy.prepend(ground);
  return new XMLSerializer().serializeToString(copy);
}

/** Hands a drawing to the person as a file. */
export function saveSvg(drawing: SVGSVGElement, name: string): void {
  const address = URL.createObjectURL(new Blob([svgText(drawing)], { type: 'image/svg+xml' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = `${name.replaceAll(/[^\p{L}\p{N} .-]/gu, '_')}.svg`;
  link.click();
  // The browser reads the address after this turn.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 10_000);
}
