import { LitElement } from 'lit';
import { property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Session } from '../../session/session.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { readFamilyAsked, type FamilyAsked } from './families-query.ts';
import { printAlone } from './sheet-print.ts';
import { sheetStyles } from './sheet-styles.ts';

/** A sheet about one family, narrowed as the family's page is. */
export abstract class FamilySheet extends LitElement {
  static override styles = [shared, sheetStyles];

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) family = '';
  /** The address's query, as the family's page has it: which repairs, the share to cover, prices. */
  @property({ attribute: false }) query = '';

  constructor() {
    super();
    followSession(this, () => this.session);
    printAlone(this);
  }

  /** Names what the sheet shows: another state of the bench, family or query is another sheet. */
  protected get key(): string {
    return `${this.session.state.revision} ${this.family} ${this.query}`;
  }

  protected get asked(): FamilyAsked {
    return readFamilyAsked(this.query);
  }

  protected get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }
}
