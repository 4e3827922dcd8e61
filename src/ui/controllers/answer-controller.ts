import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { errorText } from '../../domain/error-text.ts';

/** What is known of an answer. A pending one may still show the answer before it, so that the page does not flicker. */
export type Answer<Value> =
  | {
      readonly status: 'pending';
      readonly value?: Value;
      /** How far the work has come, from 0 to 1, once it takes long. */
      readonly progress?: number;
    }
  | { readonly status: 'ready'; readonly value: Value }
  | { readonly status: 'failed'; readonly reason: string };

/** The value of an answer that is there, or the one before that stands until it is. */
export function valueOf<Value>(answer: Answer<Value>): Value | undefined {
  return answer.status === 'failed' ? undefined : answer.value;
}

/** How many steps of some work are done. */
export interface Progress {
  readonly done: number;
  readonly total: number;
}

/** A question and what tells it from the one before. */
export interface Question<Value> {
  /** The question is asked again when this text changes. */
  readonly key: string;
  readonly ask: (signal: AbortSignal, report: (progress: Progress) => void) => Promise<Value>;
  /** Whether the answer before may stand until the new one is there. */
  readonly keepsLast?: boolean;
}

/** Asks a question of the session when its key changes; only the latest question's answer is taken. */
export class AnswerController<Value> implements ReactiveController {
  answer: Answer<Value> = { status: 'pending' };
  #key: string | undefined;
  #running: AbortController | undefined;
  readonly #host: ReactiveControllerHost;
  readonly #question: () => Question<Value> | undefined;

  /** @param question - asked before each update of the host; undefined for none */
  constructor(host: ReactiveControllerHost, question: () => Question<Value> | undefined) {
    this.#host = host;
    this.#question = question;
    host.addController(this);
  }

  hostConnected(): void {
    this.#host.requestUpdate();
  }

  hostUpdate(): void {
    const question = this.#question();
    if (question?.key === this.#key) return;
    this.#key = question?.key;
    this.#running?.abort();
    this.#running = undefined;
    const last = this.answer.status !== 'failed' && question?.keepsLast === true ? this.answer.value : undefined;
    this.answer = last === undefined ? { status: 'pending' } : { status: 'pending', value: last };
    if (question !== undefined) void this.#load(question, (this.#running = new AbortController()));
  }

  hostDisconnected(): void {
    this.#running?.abort();
    this.#running = undefined;
    this.#key = undefined;
  }

  /** Stops the question that is being answered; the answer is then that it was stopped. */
  readonly stop = (): void => {
    this.#running?.abort();
  };

  /** Asks the question once more. */
  readonly askAgain = (): void => {
    this.#key = undefined;
    this.#host.requestUpdate();
  };

  async #load(question: Question<Value>, running: AbortController): Promise<void> {
    let answer: Answer<Value>;
    try {
      answer = {
        status: 'ready',
        value: await question.ask(running.signal, (progress) => {
          this.#progress(running, progress);
        }),
      };
    } catch (error) {
      answer = { status: 'failed', reason: running.signal.aborted ? STOPPED : errorText(error) };
    }
    if (this.#running !== running) return;
    this.#running = undefined;
    this.answer = answer;
    this.#host.requestUpdate();
  }

  #progress(running: AbortController, { done, total }: Progress): void {
    if (this.#running !== running || running.signal.aborted || this.answer.status !== 'pending') return;
    this.answer = { ...this.answer, progress: total > 0 ? Math.min(1, done / total) : 0 };
    this.#host.requestUpdate();
  }
}

const STOPPED = 'This was stopped before its end.';
