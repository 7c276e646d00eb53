import { useQuery } from '@tanstack/react-query'
import { useRouterState } from '@tanstack/react-router'
import { isBaySide } from '../../api/permissions.ts'
import { myWorkQuery } from '../../api/queries/my-work.ts'
import { useMe } from '../../api/use-me.ts'
import { lazily } from '../../ui/lazily.tsx'

const OpenJoints = lazily(async () => (await import('../../features/work/open-joints.tsx')).OpenJoints)

/** Over every screen while a joint of mine is open; not where its clock and its button stand on the screen already. */
export function MyOpenJoints() {
  const bonds = useQuery(myWorkQuery).data?.bonds ?? []
  const home = isBaySide(useMe()) ? '/' : '/my-work'
  const path = useRouterState({ select: ({ location }) => location.pathname })
  const [first, ...others] = bonds.filter(
    ({ state, repairOrderId }) => state === 'applied' && path !== `/jobs/${repairOrderId}`,
  )
  if (first === undefined || path === home || path === '/my-work') return null
  return <OpenJoints bonds={[first, ...others]} isBesideAnother={path.startsWith('/jobs/')} />
}
