import { LengthInput } from '../../ui/fields/measure-input.tsx'
import { ROUTES } from '../../api/contracts.ts'
import { Button, Fieldset, NativeSelect, SimpleGrid, Stack, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useNavigate } from '@tanstack/react-router'
import type { Product, RepairOrderDetail } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { choicesOf, MATERIAL, SAFETY_CLASS } from '../../lib/words.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { initialJoint, jointBody } from './joint-values.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly job: RepairOrderDetail
  readonly products: readonly Product[]
}

export function JointForm({ job, products }: Props) {
  const navigate = useNavigate()
  const form = useForm({ initialValues: initialJoint })
  const add = useAction(ROUTES.addJoint, {
    topics: ['repairs'],
    onDone: () => void navigate({ to: '/jobs/$repairOrderId', params: { repairOrderId: job.id } }),
  })
  const others = useFormReasons(form, add.error)
  return (
    <Sheet padded>
      <form
        onSubmit={form.onSubmit((values) =>
          add.mutate({ params: { repairOrderId: job.id }, body: jointBody(values) }),
        )}
      >
        <Stack gap="md">
          <TextInput
            label={t('repairs.joint')}
            description={t('repairs.suchAsOuterSillLeft')}
            required
            {...form.getInputProps('name')}
          />
          <NativeSelect
            label={t('repairs.product')}
            required
            data={[
              { value: '', label: t('repairs.choose') },
              ...products.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            {...form.getInputProps('productId')}
          />
          <NativeSelect
            label={t('repairs.whatHappensIfItFails')}
            data={choicesOf(SAFETY_CLASS)}
            {...form.getInputProps('safetyClass')}
          />
          <SimpleGrid cols={{ base: 1, xs: 2 }}>
            <NativeSelect
              label={t('repairs.panel')}
              data={choicesOf(MATERIAL)}
              {...form.getInputProps('panelMaterial')}
            />
            <LengthInput
              label={t('repairs.panelThickness')}
              min={0.3}
              max={10}
              step={0.1}
              required
              {...form.getInputProps('panelThicknessMm')}
            />
            <LengthInput
              label={t('repairs.length')}
              min={1}
              max={20000}
              required
              {...form.getInputProps('lengthMm')}
            />
            <LengthInput
              label={t('repairs.flangeWidth')}
              min={1}
              max={200}
              required
              {...form.getInputProps('flangeWidthMm')}
            />
            <LengthInput
              label={t('repairs.beadDiameter')}
              min={0.5}
              max={20}
              required
              {...form.getInputProps('beadDiameterMm')}
            />
          </SimpleGrid>
          <Fieldset legend={t('repairs.procedureOfTheVehicleMaker')}>
            <Stack gap="sm">
              <TextInput
                label={t('repairs.document')}
                description={t('repairs.emptyIfItIsntLookedUpYetWithoutItNo')}
                {...form.getInputProps('procedure.document')}
              />
              <SimpleGrid cols={{ base: 1, xs: 2 }}>
                <TextInput label={t('repairs.revision')} {...form.getInputProps('procedure.revision')} />
                <TextInput
                  label={t('repairs.lookedUpOn')}
                  type="date"
                  {...form.getInputProps('procedure.lookedUpOn')}
                />
              </SimpleGrid>
            </Stack>
          </Fieldset>
          <ProblemPanel error={add.error} reasons={others} />
          <Button type="submit" size="md" loading={add.isPending}>
            {t('repairs.addJoint')}
          </Button>
        </Stack>
      </form>
    </Sheet>
  )
}
