-- AlterTable
ALTER TABLE "Well" ADD COLUMN "cartridgeModelId" TEXT;
ALTER TABLE "Well" ADD COLUMN "frostDepthM" REAL;
ALTER TABLE "Well" ADD COLUMN "outletDepthM" REAL;
ALTER TABLE "Well" ADD COLUMN "pumpModelId" TEXT;
ALTER TABLE "Well" ADD COLUMN "pumpRefAmps" REAL;
ALTER TABLE "Well" ADD COLUMN "pumpRefFlowM3PerS" REAL;
ALTER TABLE "Well" ADD COLUMN "pumpRefHeadM" REAL;
ALTER TABLE "Well" ADD COLUMN "pumpRefOn" TEXT;
ALTER TABLE "Well" ADD COLUMN "pumpRefVolts" REAL;
ALTER TABLE "Well" ADD COLUMN "suctionBoreM" REAL;
ALTER TABLE "Well" ADD COLUMN "suctionFittings" TEXT;
ALTER TABLE "Well" ADD COLUMN "suctionLengthM" REAL;
ALTER TABLE "Well" ADD COLUMN "suctionMaterial" TEXT;

-- CreateTable
CREATE TABLE "PumpModel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "type" TEXT,
    "power" TEXT,
    "brushNewM" REAL,
    "brushMinimumM" REAL,
    "brushCount" INTEGER,
    "npshRequiredM" REAL,
    "referenceVolts" REAL,
    "sheet" TEXT NOT NULL DEFAULT '[]',
    "brushPart" TEXT,
    "typed" TEXT NOT NULL DEFAULT '{}',
    "retired" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "CartridgeModel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "terminalDropPa" REAL,
    "referenceFlowM3PerS" REAL,
    "oRing" TEXT,
    "typed" TEXT NOT NULL DEFAULT '{}',
    "retired" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateIndex
CREATE UNIQUE INDEX "PumpModel_nameKey_key" ON "PumpModel"("nameKey");

-- CreateIndex
CREATE UNIQUE INDEX "CartridgeModel_nameKey_key" ON "CartridgeModel"("nameKey");
