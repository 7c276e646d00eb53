import { Button, Group, Modal, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useRef, useState, type SubmitEvent } from 'react'
import { happenedNow } from '../../api/client.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Bond } from '../../api/types.ts'
import { aboutBond } from '../../api/acts/about-bond.ts'
import { useAct } from '../../api/acts/use-act.ts'
import { UNREGISTERED } from '../../features/instruments/thermometer.ts'
import { ThermometerChoice } from '../../features/instruments/thermometer-choice.tsx'
import { confirmedOf, meantC, questionsOf } from '../../features/readings/questions.ts'
import { ReadingQuestion } from '../../features/readings/reading-question.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

type Confirmed = ReturnType<typeof confirmedOf>

/** The metal's temperature at the joint, now. */
export function ReadingDialog({ bond, onClose }: Props) {
  const unit = reader().temperature
  const [temperatureC, setTemperatureC] = useState<number>()
  const instruments = useQuery(shopQueries.instruments(bond.shopId)).data?.items ?? []
  const [thermometer, setThermometer] = useState(UNREGISTERED)
  // One measurement has one instant: pressed again after silence or a question, it is still the same one.
  const readAt = useRef<string>(undefined)
  const add = useAct('addPanelReading', {
    about: aboutBond(bond),
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
    onKept: onClose,
  })
  const questions = questionsOf(add.error)
  const send = (valueC: number | undefined, confirmed: Confirmed) => {
    if (valueC === undefined) return
    readAt.current ??= happenedNow()
    const { source, instrumentId, accuracyC } = thermometer
    add.mutate({
      params: { bondId: bond.id },
      body: {
        at: readAt.current,
        temperatureC: valueC,
        source,
        instrumentId: instrumentId === '' ? null : instrumentId,
        confirmed,
        ...(accuracyC === undefined ? {} : { accuracyC }),
      },
    })
  }
  const change = (valueC: number | undefined) => {
    // Another value that is typed is another measurement, unless an answer is still out.
    if (!add.isPending && questions.length === 0 && add.error === null) readAt.current = undefined
    if (questions.length > 0) add.reset()
    setTemperatureC(valueC)
  }
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    send(temperatureC, [])
  }
  const close = () => {
    add.reset()
    onClose()
  }
  return (
    <Modal opened onClose={close} title={t('job.panelTemperatureAt', { jointName: bond.jointName })}>
      <form onSubmit={submit}>
        <Stack gap="md">
          <TemperatureInput
            label={t('job.metalTemperature')}
            unit={unit}
            valueC={temperatureC}
            onChangeC={change}
            required
            isFirst
          />
          <ThermometerChoice
            instruments={instruments}
            unit={unit}
            value={thermometer}
            onChange={setThermometer}
          />
          {questions.length > 0 ? (
            <ReadingQuestion
              questions={questions}
              unit={unit}
              meantC={meantC(questions, temperatureC, unit)}
              isPending={add.isPending}
              onMeant={change}
              onConfirm={() => send(temperatureC, confirmedOf(questions))}
            />
          ) : (
            <ProblemPanel error={add.error} />
          )}
          <Group justify="flex-end">
            <Button variant="default" onClick={close}>
              {t('job.back')}
            </Button>
            <Button type="submit" loading={add.isPending}>
              {t('job.addIt')}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
