-- AlterTable
ALTER TABLE "Well" ADD COLUMN "visitDays" TEXT;

-- AlterTable
ALTER TABLE "Stop" ADD COLUMN "onlyOn" TEXT;
