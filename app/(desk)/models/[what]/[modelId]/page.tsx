import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { unitSymbols } from '@/lib/domain/quantity'
import { cartridgeModelTexts, pumpModelTexts } from '@/lib/forms/model-form'
import { paths } from '@/lib/paths'
import { cartridgeModel, pumpModel } from '@/lib/records/models'
import { getDb } from '@/lib/records/open'
import { storeCartridge, storePump } from '../../actions'
import { ModelForm } from '../../model-form'

export const metadata: Metadata = { title: 'Change a model' }

type Params = Promise<{ what: string; modelId: string }>

export default async function ModelPage({ params }: { params: Params }) {
  const { what: kind, modelId } = await params
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const db = await getDb()
  const units = unitSymbols(viewer.units)
  if (kind === 'pump') {
    const row = pumpModel(db, viewer, modelId)
    if (!row) notFound()
    return (
      <>
        <Head name={row.name} />
        <ModelForm
          kind="pump"
          action={storePump.bind(null, modelId)}
          initial={pumpModelTexts(row, viewer.units)}
          units={units}
          version={String(row.version)}
        />
      </>
    )
  }
  const row = kind === 'cartridge' ? cartridgeModel(db, viewer, modelId) : null
  if (!row) notFound()
  return (
    <>
      <Head name={row.name} />
      <ModelForm
        kind="cartridge"
        action={storeCartridge.bind(null, modelId)}
        initial={cartridgeModelTexts(row, viewer.units)}
        units={units}
        version={String(row.version)}
      />
    </>
  )
}

function Head({ name }: { name: string }) {
  return (
    <PageHead title={name} lead="A change counts for every well that names this model.">
      <Link href={paths.models()} prefetch={false}>
        Back to the models
      </Link>
    </PageHead>
  )
}
