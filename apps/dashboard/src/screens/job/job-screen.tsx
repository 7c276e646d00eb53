import { useQuery } from '@tanstack/react-query'
import { useParams } from '@tanstack/react-router'
import { repairQueries } from '../../api/queries/repairs.ts'
import { ASK_AGAIN_MS } from '../../features/bonds/freshness.ts'
import { Answered } from '../../ui/waiting.tsx'
import { JobPage } from './job-page.tsx'
import { t } from '../../lib/reader.ts'

/** One repair order, for the person at the bay side. */
export function JobScreen() {
  const { repairOrderId } = useParams({ from: '/in/jobs/$repairOrderId' })
  const job = useQuery({ ...repairQueries.one(repairOrderId), refetchInterval: ASK_AGAIN_MS })
  return (
    <Answered query={job} what={t('job.theJob')} isPage>
      {(data) => <JobPage job={data} />}
    </Answered>
  )
}
