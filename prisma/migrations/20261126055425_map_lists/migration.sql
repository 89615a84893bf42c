-- DropIndex
DROP INDEX "DueItem_wellId_idx";

-- CreateIndex
CREATE INDEX "Standing_chain_wellId_idx" ON "Standing"("chain", "wellId");

-- CreateIndex
CREATE INDEX "DueItem_wellId_dueOn_rank_dutyName_idx" ON "DueItem"("wellId", "dueOn", "rank", "dutyName");
