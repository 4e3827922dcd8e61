import type { ReactiveControllerHost } from 'lit';
import { describe, expect, test } from 'vitest';
import { AnswerController, type Progress, type Question } from '../../src/ui/controllers/answer-controller.ts';

/** A host that is drawn when the test says so, and counts how often it was asked to be. */
function host() {
  let requests = 0;
  const fake = {
    addController: () => undefined,
    removeController: () => undefined,
    requestUpdate: () => {
      requests++;
    },
    updateComplete: Promise.resolve(true),
  } satisfies ReactiveControllerHost;
  return { fake, requests: () => requests };
}

/** A question whose answer the test gives by hand. */
function open(key: string, keepsLast = false) {
  const asked: {
    signal: AbortSignal;
    report: (progress: Progress) => void;
    answer: (value: string) => void;
    fail: (reason: Error) => void;
  }[] = [];
  const question: Question<string> = {
    key,
    keepsLast,
    ask: (signal, report) =>
      new Promise((answer, fail) => {
        asked.push({ signal, report, answer, fail });
      }),
  };
  return { question, asked };
}

/** Lets what has been answered arrive. */
const settled = () => new Promise((resolve) => setTimeout(resolve));

describe('AnswerController', () => {
  test('asks once for one key, and draws its host when the answer is there', async () => {
    const { fake, requests } = host();
    const { question, asked } = open('a');
    const controller = new AnswerController(fake, () => question);
    controller.hostUpdate();
    controller.hostUpdate();
    expect(asked).toHaveLength(1);
    expect(controller.answer).toEqual({ status: 'pending' });
    asked[0]!.answer('first');
    await settled();
    expect(controller.answer).toEqual({ status: 'ready', value: 'first' });
    expect(requests()).toBe(1);
  });

  test('takes the latest answer only, and stops the question before it', async () => {
    const first = open('a');
    const second = open('b');
    let question = first.question;
    const controller = new AnswerController(host().fake, () => question);
    controller.hostUpdate();
    question = second.question;
    controller.hostUpdate();
    expect(first.asked[0]!.signal.aborted).toBe(true);
    second.asked[0]!.answer('second');
    first.asked[0]!.answer('first');
    await settled();
    expect(controller.answer).toEqual({ status: 'ready', value: 'second' });
  });

  test.each([
    [true, { status: 'pending', value: 'first' }],
    [false, { status: 'pending' }],
  ])('shows the answer before while it waits, where that is wanted (%s)', async (keepsLast, expected) => {
    const first = open('a');
    const second = open('b', keepsLast);
    let question = first.question;
    const controller = new AnswerController(host().fake, () => question);
    controller.hostUpdate();
    first.asked[0]!.answer('first');
    await settled();
    question = second.question;
    controller.hostUpdate();
    expect(controller.answer).toEqual(expected);
  });

  test('tells why an answer failed, and asks again for another key', async () => {
    const first = open('a');
    const second = open('b', true);
    let question = first.question;
    const controller = new AnswerController(host().fake, () => question);
    controller.hostUpdate();
    first.asked[0]!.fail(new Error('The worker stopped.'));
    await settled();
    expect(controller.answer).toEqual({ status: 'failed', reason: 'The worker stopped.' });
    question = second.question;
    controller.hostUpdate();
    expect(controller.answer).toEqual({ status: 'pending' });
  });

  test('tells how far the work is, says where it was stopped, and asks again', async () => {
    const { question, asked } = open('a');
    const controller = new AnswerController(host().fake, () => question);
    controller.hostUpdate();
    asked[0]!.report({ done: 1, total: 4 });
    expect(controller.answer).toEqual({ status: 'pending', progress: 0.25 });
    controller.stop();
    expect(asked[0]!.signal.aborted).toBe(true);
    asked[0]!.report({ done: 2, total: 4 });
    asked[0]!.fail(new Error('aborted'));
    await settled();
    expect(controller.answer).toEqual({ status: 'failed', reason: 'This was stopped before its end.' });
    controller.askAgain();
    controller.hostUpdate();
    expect(asked).toHaveLength(2);
    expect(controller.answer).toEqual({ status: 'pending' });
  });

  test('drops the answer of a host that has left the page, and asks again when it is back', async () => {
    const { fake, requests } = host();
    const { question, asked } = open('a');
    const controller = new AnswerController(fake, () => question);
    controller.hostUpdate();
    controller.hostDisconnected();
    expect(asked[0]!.signal.aborted).toBe(true);
    asked[0]!.answer('late');
    await settled();
    expect(controller.answer).toEqual({ status: 'pending' });
    controller.hostConnected();
    expect(requests()).toBe(1);
    controller.hostUpdate();
    expect(asked).toHaveLength(2);
  });
});
