import { formatInstant } from '../lib/instants.ts'

interface Props {
  readonly at: string
  readonly zone: string
  readonly style?: 'clock' | 'day' | 'dayClock' | 'date' | 'full'
}

/** An instant on the shop's clock, readable by machines too. */
export function When({ at, zone, style = 'dayClock' }: Props) {
  return <time dateTime={at}>{formatInstant(at, zone, style)}</time>
}
