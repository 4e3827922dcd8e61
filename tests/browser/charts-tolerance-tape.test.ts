import { html, render } from 'lit';
import { describe, expect, test } from 'vitest';
import { bandTape, tape } from '../../src/ui/charts/tolerance-tape.ts';
import { fakeRow } from '../ui/grid/fake-session.ts';

function draw(template: ReturnType<typeof tape>): Element {
  const place = document.createElement('div');
  render(html`${template}`, place);
  const [drawing] = place.children;
  if (drawing === undefined) throw new Error('Nothing was drawn.');
  return drawing;
}

function marksIn(drawing: Element): readonly string[] {
  return [...drawing.querySelectorAll('.mark')].flatMap((mark) =>
    [...mark.children].map(
      (shape) => `${mark.getAttribute('class') ?? ''} ${shape.localName}.${shape.getAttribute('class') ?? ''}`,
    ),
  );
}

describe('the tolerance tape', () => {
  test('is for the eye alone', () => {
    expect(draw(tape(fakeRow(4))).getAttribute('aria-hidden')).toBe('true');
  });

  test.each([
    ['a pass', 4, ['mark plain path.whisker', 'mark plain rect.tick']],
    ['a conditional pass', 5, ['mark plain doubtful path.whisker', 'mark plain doubtful rect.tick']],
    ['a conditional fail', 6, ['mark bad doubtful path.whisker', 'mark bad doubtful rect.tick']],
    ['a fail that runs off', 7, ['mark bad path.tick']],
    ['an open fuse, over-range', 0, ['mark bad circle.ring']],
    ['a good fuse that beeps', 9, ['mark plain circle.ring']],
    ['a reading without a band', 8, []],
  ] as const)('draws %s', (_title, row, marks) => {
    expect(marksIn(draw(tape(fakeRow(row))))).toEqual(marks);
  });

  test('has a band with two limits between a quarter and three quarters of it', () => {
    const drawing = draw(tape(fakeRow(4)));
    expect(drawing.querySelectorAll('.limit')).toHaveLength(2);
    const band = drawing.querySelector('.band');
    expect([Number(band?.getAttribute('x')), Number(band?.getAttribute('width'))]).toEqual([32.5, 65]);
  });

  test('draws a band alone', () => {
    const drawing = draw(bandTape('resistance', { low: 100e3, high: Infinity }));
    expect(drawing.querySelectorAll('.limit')).toHaveLength(1);
    expect(marksIn(drawing)).toEqual([]);
    expect(draw(bandTape('resistance', undefined)).querySelector('.band')).toBeNull();
  });
});
