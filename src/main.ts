import { loadSample } from './session/sample.ts';
import { ledgerCopyIn, type TextStorage } from './session/ledger-copy.ts';
import { Session } from './session/session.ts';
import { workOffline } from './offline.ts';
import './ui/app.ts';
import './ui/styles/fonts.ts';
import { adoptTokens } from './ui/styles/tokens.ts';
import { createBenchClient } from './worker/client.ts';

/** The decimal mark of the system's language. */
function decimalMarkHere(): '.' | ',' {
  const parts = new Intl.NumberFormat(navigator.language).formatToParts(0.5);
  return parts.find(({ type }) => type === 'decimal')?.value === ',' ? ',' : '.';
}

/** The browser's text storage; one that holds nothing where the browser refuses it. */
function textStorageHere(): TextStorage {
  try {
    return localStorage;
  } catch {
    return { getItem: () => null, setItem: () => undefined };
  }
}

adoptTokens(document);
const client = createBenchClient(
  undefined,
  undefined,
  (news) => {
    session.hear(news);
  },
  (error) => {
    session.lose(error);
  },
);
const session: Session = new Session(client, loadSample, decimalMarkHere(), ledgerCopyIn(textStorageHere()));
const app = document.querySelector('bt-app');
if (app !== null) app.session = session;
void session.start();
void session.lookElsewhere();
workOffline();
