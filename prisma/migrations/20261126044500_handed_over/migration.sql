-- AlterTable
ALTER TABLE "Grant" ADD COLUMN "called" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Grant" ADD COLUMN "since" TEXT;

-- AlterTable
ALTER TABLE "Well" ADD COLUMN "heldSince" TEXT;
