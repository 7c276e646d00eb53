import { usePasswordCost } from '../../apps/api/src/foundation/access/secrets.ts'

/**
 * Each app of a test makes people and signs them in; at the real cost that is most of what a small test takes. The
 * default cost itself is held by apps/api/src/foundation/access/secrets.test.ts, which runs without this.
 */
export const CHEAP_PASSWORD_COST = 2 ** 10

usePasswordCost(CHEAP_PASSWORD_COST)
