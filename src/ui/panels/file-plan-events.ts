import type { FilePlan, Question } from '../../domain/file-plan.ts';
import type { PlanChoices } from '../../session/answers.ts';

/** The technician changed how a file is to be read. */
export class PlanChanged extends Event {
  /** Makes the new plan of the one that holds by then. */
  readonly change: (plan: FilePlan) => FilePlan;
  /** The question that this answers, if any. */
  readonly answers: Question['about'] | undefined;

  constructor(change: (plan: FilePlan) => FilePlan, answers?: Question['about']) {
    super('plan-changed');
    this.change = change;
    this.answers = answers;
  }
}

/** The technician chose an encoding or a separator, so that the rest is guessed anew. */
export class ChoicesChanged extends Event {
  readonly choices: PlanChoices;

  constructor(choices: PlanChoices) {
    super('choices-changed');
    this.choices = choices;
  }
}
