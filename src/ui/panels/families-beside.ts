import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { FamiliesBeside, RepairsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import { chanceText, percentText, shareText } from '../charts/share-text.ts';
import '../charts/steps-chart.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, dayText } from '../words.ts';
import { countedIn, numberCell, shareCells } from './families-cells.ts';
import { lineOf, testSentence } from './families-holding.ts';
import { classText } from './families-others.ts';
import { chosenBy, familyQuery, readFamilyAsked, writeFamilyAsked, type FamilyAsked } from './families-query.ts';
import { REPAIRS_NEEDED } from './families-view.ts';
import { writeRepairsQuery } from './repairs-query.ts';

type Side = FamiliesBeside['families'][number];
type Contrast = NonNullable<FamiliesBeside['classes']>[number];

const LEVEL = 0.05;

/** Two families on the same scales: which parts fail in each, how long repairs hold, and what a repair takes. */
@customElement('bt-families-beside')
export class FamiliesBesideView extends LitElement {
  static override styles = [shared];

  private readonly answers = new AnswerController<{ readonly both: FamiliesBeside | undefined }>(this, () => {
    const { session, family, other, asked } = this;
    return (
      session && {
        key: `${session.state.revision} ${family} ${other} ${writeFamilyAsked(asked).toString()}`,
        ask: async (signal) => ({
          both: await session.ask('familiesBeside', [familyQuery(family, asked), other], signal),
        }),
        keepsLast: true,
      }
    );
  });

  @property({ attribute: false }) session?: Session;
  @property({ attribute: false }) family = '';
  @property({ attribute: false }) other = '';
  /** The address’s query. */
  @property({ attribute: false }) query = '';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get asked(): FamilyAsked {
    return readFamilyAsked(this.query);
  }

  private get mark(): DecimalMark {
    return this.session?.state.decimalMark ?? '.';
  }

  private repairsOf(family: string, counted: RepairsQuery): string {
    return hashOf('repairs', undefined, writeRepairsQuery({ family, ...chosenBy(this.asked), ...counted }));
  }

  private renderParts({ families, classes }: FamiliesBeside) {
    const { mark } = this;
    const [here, there] = families;
    const sure = (classes ?? []).filter(({ adjusted }) => adjusted <= LEVEL).length;
    return html`<bt-figure-frame
      .question=${`Do different parts fail in ${here.family} and ${there.family}?`}
      .sentence=${`The share of repairs with a proved failure of each class of parts, of those in which a part was measured: ${countOf(classes?.[0]?.here.repairs ?? 0, 'repair', mark)} of ${here.family} and ${countText(classes?.[0]?.elsewhere.repairs ?? 0, mark)} of ${there.family}, with 95 % intervals. ${sure === 0 ? 'No class differs beyond chance' : `${countText(sure, mark)} ${sure === 1 ? 'class differs' : 'classes differ'} beyond chance`} (Fisher’s exact test, one in twenty false over all classes).`}
      .instead=${tooFewOf(families, mark)}
      .table=${this.partsTable(families, classes ?? [])}
      .file=${`${here.family} and ${there.family}`}
    >
      <bt-interval-rows
        .lines=${(classes ?? []).map((contrast) => this.lineOf(contrast, families))}
        .names=${[here.family, there.family]}
        .nameRoom=${104}
        .tickText=${(share: number) => percentText(share, mark)}
        .decimalMark=${mark}
        .about=${'Classes of parts by share of repairs, in both families'}
      ></bt-interval-rows>
    </bt-figure-frame>`;
  }

  private lineOf(contrast: Contrast, [first, second]: FamiliesBeside['families']): IntervalLine {
    const { mark } = this;
    const { partClass, here, elsewhere, adjusted } = contrast;
    const told = ({ count, repairs, share }: Contrast['here']): string =>
      `${countText(count, mark)} of ${countText(repairs, mark)} (${shareText({ low: share.lower, high: share.upper }, mark)})`;
    const isMore = here.count / here.repairs > elsewhere.count / elsewhere.repairs;
    return {
      title: classText(partClass),
      label: adjusted <= LEVEL ? `more in ${isMore ? first.family : second.family}` : 'may be chance',
      sentence: `${classText(partClass)}: ${told(here)} in ${first.family}, ${told(elsewhere)} in ${second.family}; adjusted ${chanceText(adjusted, mark)}.`,
      repairs: this.repairsOf(first.family, { failedClass: partClass }),
      series: [here, elsewhere].map(({ count, repairs, share }) => ({
        middle: count / repairs,
        low: share.lower,
        high: share.upper,
      })),
    };
  }

  private partsTable([first, second]: FamiliesBeside['families'], classes: readonly Contrast[]): FigureTable {
    const { mark } = this;
    const columns = [first, second].flatMap(({ family }) => [family, 'share', 'from', 'to']);
    const cells = ({ count, repairs, share }: Contrast['here'], family: string, partClass: string) => [
      countedIn(count, this.repairsOf(family, { failedClass: partClass }), mark),
      ...shareCells({ middle: count / repairs, low: share.lower, high: share.upper }, mark),
    ];
    return {
      caption: 'Repairs with a proved failure of the class, the surest difference first',
      columns: [{ title: 'class' }, ...[...columns, 'adjusted p'].map((title) => ({ title, number: true }))],
      rows: classes.map(({ partClass, here, elsewhere, adjusted }) => [
        classText(partClass),
        ...cells(here, first.family, partClass),
        ...cells(elsewhere, second.family, partClass),
        { text: chanceText(adjusted, mark).replace('p = ', '').replace('p < ', '< '), value: adjusted },
      ]),
    };
  }

  private renderHolding({ families, holdingTest, watched }: FamiliesBeside) {
    const { mark } = this;
    const [here, there] = families;
    const lines = families
      .map(({ family, holding }) => lineOf(family, holding, this.repairsOf(family, { cameBack: true }), mark))
      .filter(({ steps }) => steps.length > 0);
    const none = `No board of either came back by ${dayText(watched)}: how long they hold is not known yet.`;
    return html`<bt-figure-frame
      .question=${'Which of the two holds better?'}
      .sentence=${'The share of boards that came back within so many days of their return (Kaplan–Meier); shaded the 95\u00a0% limits of the first. Boards that did not come back count for as long as they were watched.'}
      .instead=${lines.length === 0 ? none : undefined}
      .table=${this.repairTable(families)}
      .file=${`${here.family} and ${there.family}`}
    >
      <bt-steps-chart
        .lines=${lines}
        .across=${'days since the board went back'}
        .decimalMark=${mark}
        .about=${'Share of returned boards that came back, by days, in both families'}
      ></bt-steps-chart>
      <p slot="words">
        ${families.map(({ family, holding }) => (holding?.comebacks === 0 ? `None of ${countOf(holding.repairs, 'board', mark)} of ${family} came back by ${dayText(watched)}. ` : nothing))}
        ${testSentence(holdingTest, `boards of ${here.family}`, `boards of ${there.family}`, mark)}
      </p>
    </bt-figure-frame>`;
  }

  private repairTable(families: FamiliesBeside['families']): FigureTable {
    const { mark } = this;
    const titles = ['repairs', 'went back', 'came back', 'share', 'from', 'to', 'minutes at the bench'];
    const cells = ({ family, repairs, pays }: Side) => {
      const { returned, cameBack, comebackShare, minutes } = pays;
      return [
        { text: family, href: hashOf('families', family) },
        countedIn(repairs, this.repairsOf(family, {}), mark),
        numberCell(returned, 0, mark),
        countedIn(cameBack, this.repairsOf(family, { cameBack: true }), mark),
        ...shareCells(
          comebackShare && { middle: comebackShare.share, low: comebackShare.lower, high: comebackShare.upper },
          mark,
        ),
        numberCell(minutes?.mean, 1, mark),
      ];
    };
    return {
      caption: 'Repairs of both families, with the share of returned boards that came back',
      columns: [{ title: 'family' }, ...titles.map((title) => ({ title, number: true }))],
      rows: families.map(cells),
    };
  }

  override render() {
    const { answer } = this.answers;
    if (answer.status === 'failed') return html`<p role="alert">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet" role="status">Comparing the two.</p>`;
    const { both } = answer.value;
    return both === undefined ? nothing : html`${this.renderParts(both)} ${this.renderHolding(both)}`;
  }
}

/** Why the parts of two families cannot be compared, as a sentence. */
function tooFewOf(families: FamiliesBeside['families'], mark: DecimalMark): string | undefined {
  const few = families.find(({ repairs }) => repairs < REPAIRS_NEEDED);
  return (
    few && `${few.family} has ${countOf(few.repairs, 'repair', mark)} here: too few to say, it takes ${REPAIRS_NEEDED}.`
  );
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-families-beside': FamiliesBesideView;
  }
}
