import { Button, NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { ROUTES } from '../../api/contracts.ts'
import { repairQueries } from '../../api/queries/repairs.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Bond } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { useAction } from '../../api/use-action.ts'
import { t } from '../../lib/reader.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from './job.module.css'

/** Of a running bond that was made in no bay: nothing tells how warm it stays there until somebody says where it stands. */
export function PlaceBond({ bond }: { readonly bond: Bond }) {
  const may = useMay()
  const resources = useQuery(shopQueries.resources(bond.shopId))
  const job = useQuery(repairQueries.one(bond.repairOrderId))
  const [chosen, setChosen] = useState<string>()
  const place = useAction(ROUTES.placeBond, { topics: ['bonds', 'repairs', 'bookings', 'alerts'] })
  const bays = (resources.data?.items ?? []).filter(({ kind, active }) => kind === 'bay' && active)
  const bayId = chosen ?? job.data?.bay?.id ?? ''
  if (!may('makeBonds', bond.shopId)) return null
  return (
    <div className={styles['place']}>
      <NativeSelect
        label={t('job.whichBayDoesItStandIn')}
        description={t('job.itsAirCountsFromNow')}
        size="md"
        value={bayId}
        data={[
          { value: '', label: t('job.chooseBay') },
          ...bays.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(event) => setChosen(event.currentTarget.value)}
      />
      <Button
        variant="default"
        disabled={bayId === ''}
        loading={place.isPending}
        onClick={() => place.mutate({ params: { bondId: bond.id }, body: { bayId } })}
      >
        {t('job.itStandsThere')}
      </Button>
      {place.error !== null && <ProblemPanel error={place.error} />}
    </div>
  )
}
