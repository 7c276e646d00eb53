import { useQuery } from '@tanstack/react-query'
import { myWorkQuery } from '../../api/queries/my-work.ts'
import { loadWords } from '../../lib/reader.ts'
import { lazily } from '../../ui/lazily.tsx'

const WorkCalls = lazily(async () => {
  const [module] = await Promise.all([import('../../features/work/work-calls.tsx'), loadWords(['calls'])])
  return module.WorkCalls
})

/** On every screen of whoever makes bonds, as long as there is one of his. */
export function MyCalls() {
  const bonds = useQuery(myWorkQuery).data?.bonds ?? []
  return bonds.length === 0 ? null : <WorkCalls bonds={bonds} />
}
