import type { ReactiveControllerHost } from 'lit';
import type { HistoryLine, HistorySubject } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';

/** Keeps the changes of the one thing that its host is about, latest first. */
export function subjectHistory(
  host: ReactiveControllerHost & { readonly session: Session; readonly subject: HistorySubject },
): AnswerController<readonly HistoryLine[]> {
  return new AnswerController<readonly HistoryLine[]>(host, () => {
    const { session, subject } = host;
    return {
      key: JSON.stringify([session.state.revision, subject]),
      ask: (signal) => session.ask('historyOf', [subject], signal),
      keepsLast: true,
    };
  });
}
