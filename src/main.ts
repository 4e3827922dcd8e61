import { loadSample } from './session/sample.ts';
import { Session } from './session/session.ts';
import './ui/app.ts';
import './ui/styles/fonts.ts';
import { adoptTokens } from './ui/styles/tokens.ts';
import { createBenchClient } from './worker/client.ts';

/** The decimal mark of the system's language. */
function decimalMarkHere(): '.' | ',' {
  const parts = new Intl.NumberFormat(navigator.language).formatToParts(0.5);
  return parts.find(({ type }) => type === 'decimal')?.value === ',' ? ',' : '.';
}

adoptTokens(document);
const session = new Session(createBenchClient(), loadSample, decimalMarkHere());
const app = document.querySelector('bt-app');
if (app !== null) app.session = session;
void session.openSample();
