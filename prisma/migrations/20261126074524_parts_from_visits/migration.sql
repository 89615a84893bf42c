-- AlterTable
ALTER TABLE "PumpModel" ADD COLUMN "warrantyMonths" INTEGER;

-- AlterTable
ALTER TABLE "CartridgeModel" ADD COLUMN "warrantyMonths" INTEGER;

-- AlterTable
ALTER TABLE "Part" ADD COLUMN "beside" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "FittedItem" ADD COLUMN "warrantyMonths" INTEGER;
ALTER TABLE "FittedItem" ADD COLUMN "position" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "PumpModel" ADD COLUMN "batchId" TEXT;
ALTER TABLE "CartridgeModel" ADD COLUMN "batchId" TEXT;
ALTER TABLE "StockItem" ADD COLUMN "batchId" TEXT;
ALTER TABLE "StockItem" ADD COLUMN "clearedAt" TEXT;
