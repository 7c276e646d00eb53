import { useQuery } from '@tanstack/react-query'
import { myWorkQuery } from '../../api/queries/my-work.ts'
import { withWords } from '../../lib/reader.ts'
import { lazily } from '../../ui/lazily.tsx'

const WorkCalls = lazily(
  async () => (await withWords(import('../../features/work/work-calls.tsx'), 'calls')).WorkCalls,
)

/** On every screen of whoever makes bonds, as long as there is one of his. */
export function MyCalls() {
  const bonds = useQuery(myWorkQuery).data?.bonds ?? []
  return bonds.length === 0 ? null : <WorkCalls bonds={bonds} />
}
