import { message, type Told } from '@clampclock/messages'

/** Who holds a lot when nobody did: kept as a name beside those of people. */
export const WATCH = 'Storage watch'

/** Who held a lot, for a reader. */
export function holder(by: string): Told {
  return by === WATCH ? message('stock-reason.storageWatch') : by
}
