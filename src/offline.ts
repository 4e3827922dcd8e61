import { trustedScript } from './worker/trusted-script.ts';

/** Lets the served page work offline after its first visit; the portable file needs no help, and development none that hides changes. */
export function workOffline(): void {
  if (!import.meta.env.PROD || location.protocol === 'file:' || !('serviceWorker' in navigator)) return;
  navigator.serviceWorker.register(trustedScript('./offline.js')).catch(() => undefined);
}
