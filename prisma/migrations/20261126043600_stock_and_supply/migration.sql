-- AlterTable
ALTER TABLE "Well" ADD COLUMN "supply" TEXT;

-- CreateTable
CREATE TABLE "FittedItem" (
    "entryId" TEXT NOT NULL,
    "line" INTEGER NOT NULL,
    "wellId" TEXT NOT NULL,
    "fittedOn" TEXT NOT NULL,
    "part" TEXT NOT NULL,
    "model" TEXT,
    "modelKey" TEXT NOT NULL,
    "count" INTEGER NOT NULL,

    PRIMARY KEY ("entryId", "line"),
    CONSTRAINT "FittedItem_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "StockItem" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "part" TEXT NOT NULL,
    "model" TEXT,
    "modelKey" TEXT NOT NULL,
    "reorderAt" INTEGER,
    "upTo" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "StockEntry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "itemId" TEXT NOT NULL,
    "movedOn" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "count" INTEGER NOT NULL,
    "reason" TEXT,
    "at" TEXT NOT NULL,
    "authorId" TEXT,
    "byName" TEXT NOT NULL,
    CONSTRAINT "StockEntry_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "StockItem" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "FittedItem_part_modelKey_fittedOn_idx" ON "FittedItem"("part", "modelKey", "fittedOn");

-- CreateIndex
CREATE INDEX "FittedItem_wellId_part_fittedOn_idx" ON "FittedItem"("wellId", "part", "fittedOn");

-- CreateIndex
CREATE UNIQUE INDEX "StockItem_part_modelKey_key" ON "StockItem"("part", "modelKey");

-- CreateIndex
CREATE INDEX "StockEntry_itemId_movedOn_at_idx" ON "StockEntry"("itemId", "movedOn", "at");

-- The book is append-only: a wrong count is put right by a count.
CREATE TRIGGER "StockEntry_no_update" BEFORE UPDATE ON "StockEntry"
BEGIN
    SELECT RAISE(ABORT, 'lines of the stock book are never changed: count anew');
END;

CREATE TRIGGER "StockEntry_no_delete" BEFORE DELETE ON "StockEntry"
BEGIN
    SELECT RAISE(ABORT, 'lines of the stock book are never deleted: count anew');
END;
