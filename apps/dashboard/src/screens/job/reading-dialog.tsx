import { ROUTES } from '@clampclock/contracts'
import { Button, Group, Modal, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState, type SubmitEvent } from 'react'
import { happenedNow } from '../../api/client.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Bond } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { UNREGISTERED } from '../../features/instruments/thermometer.ts'
import { ThermometerChoice } from '../../features/instruments/thermometer-choice.tsx'
import { unitOf, useShop } from '../../lib/shop-scope.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { TemperatureInput } from '../../ui/temperature-input.tsx'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

/** The metal's temperature at the joint, now. */
export function ReadingDialog({ bond, onClose }: Props) {
  const unit = unitOf(useShop(bond.shopId))
  const [temperatureC, setTemperatureC] = useState<number>()
  const instruments = useQuery(shopQueries.instruments(bond.shopId)).data?.items ?? []
  const [thermometer, setThermometer] = useState(UNREGISTERED)
  const add = useAction(ROUTES.addPanelReading, {
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
  })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    if (temperatureC === undefined) return
    const { source, instrumentId, accuracyC } = thermometer
    add.mutate({
      params: { bondId: bond.id },
      body: {
        at: happenedNow(),
        temperatureC,
        source,
        instrumentId: instrumentId === '' ? null : instrumentId,
        ...(accuracyC === undefined ? {} : { accuracyC }),
      },
    })
  }
  return (
    <Modal opened onClose={onClose} title={`Panel temperature at ${bond.jointName}`}>
      <form onSubmit={submit}>
        <Stack gap="md">
          <TemperatureInput
            label="Metal temperature"
            unit={unit}
            valueC={temperatureC}
            onChangeC={setTemperatureC}
            required
            isFirst
          />
          <ThermometerChoice
            instruments={instruments}
            unit={unit}
            value={thermometer}
            onChange={setThermometer}
          />
          <ProblemPanel error={add.error} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              Back
            </Button>
            <Button type="submit" loading={add.isPending}>
              Add it
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
