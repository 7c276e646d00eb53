import { ROUTES } from '../../api/contracts.ts'
import { Button, Group, Modal, NativeSelect, NumberInput, Stack, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { Link } from '@tanstack/react-router'
import type { PlanDetail, PlannedOperation, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { formatInstant, fromWallClock, toWallClock, formatSpan } from '../../lib/instants.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import { WorkButtons } from './work-buttons.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly operation: PlannedOperation
  readonly plan: PlanDetail
  readonly resources: readonly Resource[]
  readonly shop: Shop
  readonly mayMove: boolean
  readonly onClose: () => void
}

/** An operation by keyboard: when, where, by whom, how long. What cannot be is refused with its reasons, and nothing is lost. */
export function MoveDialog({ operation, plan, resources, shop, mayMove, onClose }: Props) {
  const order = plan.orders.find(({ id }) => id === operation.repairOrderId)
  const zone = shop.timeZone
  const canMove = mayMove && operation.startedAt === null && operation.kind !== 'cure'
  const mayWork = useMay()('makeBonds', shop.id) && plan.state === 'published'
  const place = resources.find(({ id }) => id === operation.placeId)
  const form = useForm({
    initialValues: {
      startsAt: toWallClock(operation.startsAt, zone),
      placeId: operation.placeId ?? '',
      technicianId: operation.technicianIds[0] ?? '',
      workMinutes: '' as number | string,
    },
    validate: {
      startsAt: (text) => {
        const read = fromWallClock(text, zone)
        return 'fault' in read ? read.fault : null
      },
    },
  })
  const move = useAction(ROUTES.movePlanned, {
    topics: ['plans', 'bookings', 'repairs'],
    onDone: ({ isAllowed }) => {
      if (isAllowed) onClose()
    },
  })
  const others = useFormReasons(form, move.error)
  const refusals = move.data?.isAllowed === false ? move.data.reasons : []
  const submit = form.onSubmit(({ startsAt, placeId, technicianId, workMinutes }) => {
    const read = fromWallClock(startsAt, zone)
    if ('fault' in read) return
    const [first, ...rest] = operation.technicianIds
    move.mutate({
      params: { planId: plan.id },
      body: {
        operationId: operation.operationId,
        startsAt: read.iso,
        ...(placeId !== '' && placeId !== operation.placeId ? { placeId } : {}),
        ...(technicianId !== '' && technicianId !== first ? { technicianIds: [technicianId, ...rest] } : {}),
        ...(workMinutes === '' ? {} : { workMinutes: Number(workMinutes) }),
      },
    })
  })
  const ofKind = (kind: Resource['kind'] | undefined) =>
    resources
      .filter((each) => each.active && each.kind === kind)
      .map(({ id, name }) => ({ value: id, label: name }))
  return (
    <Modal opened onClose={onClose} title={`${operation.name}, ${order?.number ?? ''}`}>
      <form onSubmit={submit}>
        <Stack gap="md">
          <Link to="/jobs/$repairOrderId" params={{ repairOrderId: operation.repairOrderId }}>
            {order?.vehicle}
          </Link>
          <div>
            {formatSpan(formatInstant(operation.startsAt, zone), formatInstant(operation.endsAt, zone))}
            {operation.kind === 'cure' && ` ${t('plan.onTheCarefulEstimate')}`}
            {operation.expectedEndAt !== null &&
              `; ${t('plan.expected', { expectedEndAt: formatInstant(operation.expectedEndAt, zone) })}`}
          </div>
          {operation.warning !== null && <Mark tone="danger">{operation.warning}</Mark>}
          {operation.kind === 'cure' && <span>{t('plan.aCureBeginsWithItsClampsAndTakesAs')}</span>}
          {operation.startedAt !== null && <Mark tone="quiet">{t('plan.itHasBegunAndStaysWhereItIs')}</Mark>}
          {mayWork && <WorkButtons operation={operation} onDone={onClose} />}
          {canMove && (
            <>
              <TextInput
                label={t('plan.start2')}
                description={t('plan.clockOf', { name: shop.name })}
                type="datetime-local"
                required
                data-autofocus
                {...form.getInputProps('startsAt')}
              />
              <NativeSelect
                label={place?.kind === 'oven' ? t('plan.oven') : t('plan.bay')}
                description={t('plan.forAllThatTheVehicleDoesThereInOne')}
                data={ofKind(place?.kind)}
                {...form.getInputProps('placeId')}
              />
              {operation.technicianIds.length > 0 && (
                <NativeSelect
                  label={t('plan.technician')}
                  data={ofKind('technician')}
                  {...form.getInputProps('technicianId')}
                />
              )}
              <NumberInput
                label={t('plan.workMinutes')}
                description={t('plan.leftEmptyAsLongAsItIsNow')}
                min={1}
                max={10_080}
                {...form.getInputProps('workMinutes')}
              />
            </>
          )}
          {refusals.length > 0 && (
            <div role="alert">
              <Mark tone="danger">{t('plan.itCannotBeMovedThere')}</Mark>
              <ReasonList reasons={refusals} />
            </div>
          )}
          <ProblemPanel error={move.error} reasons={others} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              {t('plan.back')}
            </Button>
            {canMove && (
              <Button type="submit" loading={move.isPending}>
                {t('plan.move')}
              </Button>
            )}
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
