import { ROUTES } from '@clampclock/contracts'
import { Button, Group, Modal, SegmentedControl, Stack } from '@mantine/core'
import { useState, type SubmitEvent } from 'react'
import { happenedNow } from '../../api/client.ts'
import type { Bond } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { unitOf, useShop } from '../../lib/shop-scope.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { TemperatureInput } from '../../ui/temperature-input.tsx'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

const SOURCES = [
  { value: 'metalProbe', label: 'Metal probe' },
  { value: 'infrared', label: 'Infrared' },
]

/** The metal's temperature at the joint, now. */
export function ReadingDialog({ bond, onClose }: Props) {
  const unit = unitOf(useShop(bond.shopId))
  const [temperatureC, setTemperatureC] = useState<number>()
  const [accuracyC, setAccuracyC] = useState<number | undefined>(1)
  const [source, setSource] = useState<'metalProbe' | 'infrared'>('metalProbe')
  const add = useAction(ROUTES.addPanelReading, {
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
  })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    if (temperatureC === undefined) return
    add.mutate({
      params: { bondId: bond.id },
      body: { at: happenedNow(), temperatureC, source, ...(accuracyC === undefined ? {} : { accuracyC }) },
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
          <SegmentedControl
            aria-label="Measured with"
            fullWidth
            data={SOURCES}
            value={source}
            onChange={(value) => setSource(value as 'metalProbe' | 'infrared')}
          />
          <TemperatureInput
            label="Accuracy of the thermometer, plus or minus"
            unit={unit}
            isDifference
            valueC={accuracyC}
            onChangeC={setAccuracyC}
            required
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
