import { ROUTES } from '@clampclock/contracts'
import { Button, Group, NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { planningQueries } from '../../api/queries/planning.ts'
import type { Operation, RepairOrderDetail } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { programWords } from '../../features/oven/program.ts'
import { unitOf, useShop } from '../../lib/shop-scope.ts'
import { BAY_ATTRIBUTE, SKILL } from '../../lib/words.ts'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'

/** What is to be done on the vehicle, in order; a template gives a joint its steps. */
export function Operations({ job }: { readonly job: RepairOrderDetail }) {
  const operations = useQuery(planningQueries.operations(job.id))
  const mayPlan = useMay()('planWork', job.shopId)
  const unit = unitOf(useShop(job.shopId))
  const remove = useAction(ROUTES.removeOperation, { topics: ['repairs'] })
  const columns: readonly Column<Operation>[] = [
    {
      head: 'Operation',
      cell: ({ name, jointName }) => `${name}${jointName === null ? '' : `: ${jointName}`}`,
    },
    { head: 'Takes', cell: takes },
    { head: 'Needs', cell: (operation) => needs(operation, unit) },
    {
      head: 'State',
      cell: ({ startedAt, finishedAt }) => (finishedAt ? 'Finished' : startedAt ? 'Under way' : ''),
    },
    ...(mayPlan && job.state === 'open'
      ? [
          {
            head: 'Change',
            cell: ({ id, name, startedAt }: Operation) =>
              startedAt === null && (
                <Button
                  size="xs"
                  variant="default"
                  aria-label={`Remove ${name}`}
                  onClick={() => remove.mutate({ params: { operationId: id } })}
                >
                  Remove
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <Section title="Operations">
      <Answered query={operations} what="operations">
        {({ items }) => (
          <>
            {items.length === 0 ? (
              <Empty title="No operations yet.">
                The plan needs them: a template gives a joint its steps.
              </Empty>
            ) : (
              <Table caption="Operations" columns={columns} rows={items} rowKey={({ id }) => id} />
            )}
            <ProblemPanel error={remove.error} />
            {mayPlan && job.state === 'open' && <FromTemplate job={job} operations={items} />}
          </>
        )}
      </Answered>
    </Section>
  )
}

function takes({ workMinutes, technicians, bakeProgram }: Operation): string {
  if (workMinutes === null) return 'as long as its bay lets it'
  if (bakeProgram !== null) return `${workMinutes} min by program`
  return `${workMinutes} min${technicians > 1 ? ` × ${technicians}` : ''}`
}

function needs({ skill, clampSets, attributes, place, bakeProgram }: Operation, unit: 'C' | 'F'): string {
  return [
    place === 'oven' ? 'Oven' : '',
    bakeProgram === null ? '' : programWords(bakeProgram, unit),
    skill === null ? '' : SKILL[skill],
    clampSets === 0 ? '' : `${clampSets} clamp ${clampSets === 1 ? 'set' : 'sets'}`,
    ...attributes.map((each) => BAY_ATTRIBUTE[each]),
  ]
    .filter((part) => part !== '')
    .join(', ')
}

interface FromTemplateProps {
  readonly job: RepairOrderDetail
  readonly operations: readonly Operation[]
}

function FromTemplate({ job, operations }: FromTemplateProps) {
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
          label="Template"
          value={template}
          data={[
            { value: '', label: 'Choose…' },
            ...(templates.data?.items ?? [])
              .filter(({ isSetAside }) => !isSetAside)
              .map(({ key, name }) => ({ value: key, label: name })),
          ]}
          onChange={(event) => setTemplate(event.currentTarget.value)}
        />
        {free.length > 0 && (
          <NativeSelect
            label="For"
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
          Add operations
        </Button>
      </Group>
      <ProblemPanel error={add.error} />
    </>
  )
}
