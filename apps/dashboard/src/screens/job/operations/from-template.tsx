import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group, NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { planningQueries } from '../../../api/queries/planning.ts'
import type { Operation, RepairOrderDetail } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly job: RepairOrderDetail
  readonly operations: readonly Operation[]
}

/** A template gives a joint without operations its steps, and the vehicle those that it has none of yet. */
export function FromTemplate({ job, operations }: Props) {
  const templates = useQuery(planningQueries.templates(job.shopId))
  const add = useAction(ROUTES.addOperations, { topics: ['repairs'] })
  const free = job.joints.filter(({ id }) => !operations.some(({ jointId }) => jointId === id))
  const [template, setTemplate] = useState('')
  const [jointId, setJointId] = useState('')
  const chosen = free.some(({ id }) => id === jointId) ? jointId : (free[0]?.id ?? '')
  if (free.length === 0 && operations.length > 0) return null
  return (
    <>
      <Group align="flex-end" mt="sm">
        <NativeSelect
          label={t('job.template')}
          value={template}
          data={[
            { value: '', label: t('job.choose') },
            ...(templates.data?.items ?? [])
              .filter(({ isSetAside }) => !isSetAside)
              .map(({ key, name }) => ({ value: key, label: name })),
          ]}
          onChange={(event) => setTemplate(event.currentTarget.value)}
        />
        {free.length > 0 && (
          <NativeSelect
            label={t('job.for')}
            value={chosen}
            data={free.map(({ id, name }) => ({ value: id, label: name }))}
            onChange={(event) => setJointId(event.currentTarget.value)}
          />
        )}
        <Button
          disabled={template === ''}
          loading={add.isPending}
          onClick={() =>
            add.mutate({
              params: { repairOrderId: job.id },
              body: { template, jointId: chosen === '' ? null : chosen },
            })
          }
        >
          {t('job.addOperations')}
        </Button>
      </Group>
      <ProblemPanel error={add.error} />
    </>
  )
}
