interface TypePolicy {
  createScriptURL(address: string): string;
}

/** The part of Trusted Types that is used here; the compiler's libraries do not know them. */
interface TypePolicies {
  createPolicy(name: string, rules: TypePolicy): TypePolicy;
}

const trusted = new Set<string>();
let policy: TypePolicy | undefined;

/** Vouches for the address of one of the page's own scripts, where the browser asks for that. Only addresses known at build time may be given. */
export function trustedScript(address: string): string {
  trusted.add(address);
  const { trustedTypes } = globalThis as { trustedTypes?: TypePolicies };
  if (trustedTypes === undefined) return address;
  policy ??= trustedTypes.createPolicy('benchtally', {
    createScriptURL: (asked) => {
      if (!trusted.has(asked)) throw new TypeError(`${asked} is not a script of this page.`);
      return asked;
    },
  });
  return policy.createScriptURL(address);
}
