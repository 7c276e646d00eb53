import { ROUTES } from '../../api/contracts.ts'
import { Button, NativeSelect, SimpleGrid, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { planningQueries } from '../../api/queries/planning.ts'
import type { Resource, Shop, WorkShift } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Section, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { readShifts, shiftText, weekFrom, WEEKDAYS } from './shift-text.ts'
import { t, reader } from '../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly resources: readonly Resource[]
  readonly mayPlan: boolean
}

const SHOP = 'shop'

/** The working week of the shop, or of one person who has another. */
export function HoursSection({ shop, resources, mayPlan }: Props) {
  const hours = useQuery(planningQueries.hours(shop.id))
  const [whose, setWhose] = useState(SHOP)
  const technicians = resources.filter(({ kind, active }) => kind === 'technician' && active)
  return (
    <Section title={t('plan-setup.workingWeek')}>
      <Sheet padded>
        <NativeSelect
          label={t('plan-setup.whose')}
          maw="28rem"
          value={whose}
          data={[
            { value: SHOP, label: t('plan-setup.theShopAndEverybodyWithoutHoursOf') },
            ...technicians.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={(event) => setWhose(event.currentTarget.value)}
        />
        <Answered query={hours} what={t('plan-setup.workingHours')}>
          {({ items }) => {
            const resourceId = whose === SHOP ? null : whose
            const shifts = items.find((each) => each.resourceId === resourceId)?.shifts ?? []
            return (
              <WeekForm
                key={`${whose} ${JSON.stringify(shifts)}`}
                shopId={shop.id}
                resourceId={resourceId}
                shifts={shifts}
                mayPlan={mayPlan}
              />
            )
          }}
        </Answered>
      </Sheet>
    </Section>
  )
}

interface WeekProps {
  readonly shopId: string
  readonly resourceId: string | null
  readonly shifts: readonly WorkShift[]
  readonly mayPlan: boolean
}

function WeekForm({ shopId, resourceId, shifts, mayPlan }: WeekProps) {
  const form = useForm({
    initialValues: { days: WEEKDAYS.map((day) => shiftText(shifts, day)) },
    validate: {
      days: (days) => {
        const read = days.map((text, i) => readShifts(text, i + 1)).find((each) => 'fault' in each)
        return read && 'fault' in read ? read.fault : null
      },
    },
  })
  const set = useAction(ROUTES.setWorkingHours, { topics: ['shops'] })
  const submit = form.onSubmit(({ days }) => {
    const read = days.map((text, i) => readShifts(text, i + 1))
    set.mutate({
      params: { shopId },
      body: { resourceId, shifts: read.flatMap((each) => ('shifts' in each ? each.shifts : [])) },
    })
  })
  const { firstDay } = reader()
  return (
    <form onSubmit={submit}>
      <p>
        {t('plan-setup.shiftsLike')}{' '}
        {resourceId !== null && t('plan-setup.allDaysEmptyTheHoursOfTheShopHold')}
      </p>
      <SimpleGrid cols={{ base: 1, sm: 2, lg: 4 }}>
        {weekFrom(firstDay).map((day) => (
          <TextInput
            key={day}
            label={t(`calendar.weekdayName.${day}`)}
            disabled={!mayPlan}
            {...form.getInputProps(`days.${day - 1}`)}
          />
        ))}
      </SimpleGrid>
      {typeof form.errors['days'] === 'string' && <p role="alert">{form.errors['days']}</p>}
      <ProblemPanel error={set.error} />
      {mayPlan && (
        <Button type="submit" mt="md" loading={set.isPending} disabled={!form.isDirty()}>
          {t('plan-setup.saveTheWeek')}
        </Button>
      )}
    </form>
  )
}
