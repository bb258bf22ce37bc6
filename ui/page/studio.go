package page

import (
	"context"
	"image"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/planner/trace"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

// Studio is what the window asks of the studio. *planner.Studio is one; the gallery of
// screens has another with fixed answers.
type Studio interface {
	planner.Store

	LogPurchase(context.Context, planner.PurchaseForm) (stash.ClothState, error)
	LogBuying(context.Context, planner.Buying) (planner.Bought, error)
	ChangePurchase(context.Context, stash.Purchase) error
	Spending(ctx context.Context, from, to stash.Date) (planner.Spending, error)
	OnHand(context.Context) (planner.OnHand, error)
	Origin(ctx context.Context, cloth stash.ID) (planner.Origin, error)
	SaveNotion(context.Context, stash.Notion) (stash.Notion, error)
	BuyNotion(ctx context.Context, notion stash.ID, quantity float64, paid measure.Money, note string) (stash.Notion, error)
	UseNotion(ctx context.Context, notion stash.ID, quantity float64, garment stash.ID, note string) (stash.Notion, error)
	ShoppingList(context.Context) ([]planner.ToBuy, error)
	Today() stash.Date
	History(ctx context.Context, p planner.Past, before int64, limit int) ([]planner.PastLine, error)
	HistoryUpTo(ctx context.Context, p planner.Past, most int) ([]planner.PastLine, error)
	HistoryCount(context.Context, planner.Past) (int, error)
	MovementTable([]planner.PastLine) list.Table
	Yardage(context.Context, planner.Past, planner.Step) (planner.Yardage, error)
	WhatBecame(ctx context.Context, code string) (b planner.Became, found bool, err error)
	Worth(context.Context) (planner.Worth, error)
	GarmentCosts(context.Context) ([]planner.GarmentCost, error)
	KeepRate(ctx context.Context, text string) (stash.Rate, error)
	DropRate(context.Context, stash.Rate) error
	AddLeftover(context.Context, planner.LeftoverForm) (stash.ClothState, error)
	Wash(context.Context, planner.Sizing) (planner.Resized, error)
	MeasureAgain(context.Context, planner.Sizing) (planner.Resized, error)
	MoveCloth(ctx context.Context, cloth stash.ID, place string) error
	FlawFound(context.Context, planner.Flaw) (planner.Resized, error)
	TrueEnds(ctx context.Context, cloth stash.ID, length measure.Length) error
	GiveAway(ctx context.Context, cloth stash.ID, note string) error
	Discard(ctx context.Context, cloth stash.ID, note string) error
	MeasureStretch(ctx context.Context, fabric stash.ID, tests ...planner.StretchTest) (stash.Fabric, error)

	PlanToBuy(ctx context.Context, fabric stash.ID, length measure.Length, what string) (stash.Fabric, error)
	KeepStitch(context.Context, planner.StitchForm) (int, error)
	DropStitch(ctx context.Context, of stash.PhotoOf, id stash.ID, at int) error

	AddPhoto(context.Context, planner.PhotoForm) (stash.Photo, error)
	RemovePhoto(ctx context.Context, photo stash.ID) error
	ReadPhoto(ctx context.Context, file []byte) (*image.RGBA, error)
	TracePhoto(ctx context.Context, picture image.Image, r trace.Rectangle) (trace.Answer, error)

	ReadList(ctx context.Context, name string, data []byte, sheet string) (planner.ListDraft, error)
	PlanList(context.Context, planner.ListDraft) (list.Result, error)
	ImportList(ctx context.Context, d planner.ListDraft, shown list.Result, leaveOut bool) (stash.Act, error)
	ExportAll(context.Context) ([]list.Table, error)

	SaveFabric(context.Context, stash.Fabric) error
	SavePattern(context.Context, pattern.Pattern) (pattern.Pattern, error)
	SaveSettings(context.Context, planner.Settings) error
	BackUpToday(context.Context) (planner.Backup, error)
	planner.HabitsKeeper
	SavePerson(context.Context, sizing.Person) (sizing.Person, error)
	MeasurePerson(ctx context.Context, person stash.ID, t sizing.Taken) (sizing.Person, error)
	DropPerson(ctx context.Context, person stash.ID) error
	BlendSizes(ctx context.Context, pattern stash.ID, at map[string]string) (sizing.Blended, error)
	KeepBlend(ctx context.Context, pattern stash.ID, c sizing.Choice) (sizing.Blended, error)
	SizeFor(ctx context.Context, pattern, person, fabric stash.ID) (sizing.Choice, error)
	NewGarment(ctx context.Context, pattern stash.ID, size, name, who string) (garment.Garment, error)
	SaveGarment(context.Context, garment.Garment) error
	AdjustedGarment(ctx context.Context, garment stash.ID) (planner.Adjusted, error)
	TryAdjustments(ctx context.Context, garment stash.ID, steps []adjust.Step) (planner.Adjusted, error)
	Adjust(context.Context, planner.AdjustForm) (planner.Adjustment, error)
	TakeOver(ctx context.Context, garment stash.ID, steps []adjust.Step) (planner.Adjustment, error)
	DropAdjustment(ctx context.Context, garment stash.ID, at int) (planner.Adjustment, error)
	KeepAdjustment(ctx context.Context, garment stash.ID, at int) (sizing.Person, error)
	ForgetAdjustment(ctx context.Context, person stash.ID, at int) (sizing.Person, error)
	GarmentEdgeJobs(ctx context.Context, garment stash.ID) ([]binding.Job, error)
	GarmentRecord(ctx context.Context, garment stash.ID) (planner.GarmentRecord, error)
	ChangeGarment(ctx context.Context, garment stash.ID, f planner.GarmentForm) (garment.Garment, error)
	CopyGarment(ctx context.Context, garment stash.ID, size, name string) (garment.Garment, error)
	NoteStep(ctx context.Context, garment stash.ID, step int, d garment.Done) (garment.Garment, error)
	StepNotDone(ctx context.Context, garment stash.ID, step int) (garment.Garment, error)
	NoteFitting(ctx context.Context, garment stash.ID, f planner.FittingForm) (garment.Garment, error)
	DropFitting(ctx context.Context, garment stash.ID, at int) error
	KeepSeam(ctx context.Context, garment stash.ID, s garment.Seam) error
	DropSeam(ctx context.Context, garment stash.ID, name string) error

	FindFabric(context.Context, planner.Search, func(planner.Finding)) ([]planner.Finding, error)
	CheckCloth(ctx context.Context, cloth stash.ID, q planner.Search) (planner.Finding, error)
	WhatCanItMake(ctx context.Context, cloth stash.ID, report func(planner.Making)) ([]planner.Making, error)
	TakeInHand(ctx context.Context, f planner.Finding, q planner.Search) (*match.Hand, error)
	KeepTrying(ctx context.Context, from match.Start, e planner.Effort, report func(match.Trial)) (match.Tried, error)
	Layout(ctx context.Context, cloth stash.ID, q planner.Search) (match.Layout, error)
	Reserve(ctx context.Context, garment stash.ID, f planner.Finding, usedFor string) ([]stash.Reservation, error)
	Release(ctx context.Context, garment stash.ID) (int, error)

	PlanBatch(ctx context.Context, b planner.Batch, e planner.BatchEffort, report func(planner.BatchPlan)) (planner.BatchPlan, error)
	WhatToBuy(context.Context, planner.Batch, planner.BatchPlan) ([]planner.ClothToBuy, error)
	NearestMisses(context.Context, planner.Batch, planner.BatchPlan) ([]planner.NearestMiss, error)
	ReserveAll(context.Context, planner.Batch, planner.BatchPlan) ([]garment.Garment, error)
	FillIn(context.Context, planner.Batch, planner.BatchPlan) (planner.BatchPlan, int, error)
	RowSizes(ctx context.Context, rows []planner.Wanted) ([]planner.RowSize, error)
	RowOffers(ctx context.Context, w planner.Wanted) ([]planner.Offer, error)
	SaveBatch(context.Context, planner.Batch) (planner.Batch, error)
	KeepInHand(ctx context.Context, b *planner.Batch) error
	InHand(ctx context.Context) (*planner.Batch, error)
	DropBatch(ctx context.Context, id stash.ID) error

	CutPlan(ctx context.Context, garment stash.ID) ([]planner.ClothCut, error)
	GoodFor(context.Context, stash.ClothState) (planner.GoodFor, error)
	WorkOutUses(ctx context.Context, c stash.ClothState, turn func() bool) (planner.GoodFor, error)
	UnworkedCloth(context.Context) ([]stash.ClothState, error)
	MarkCut(ctx context.Context, garment stash.ID, keep planner.Keeping) ([]stash.Cloth, error)

	CuttingSheet(ctx context.Context, garment stash.ID) (planner.CuttingSheet, error)
	ClothSheet(ctx context.Context, cloth stash.ID) (planner.CuttingSheet, error)
	BatchSheet(ctx context.Context, b planner.Batch) (planner.CuttingSheet, error)
	ProjectSheet(ctx context.Context, id stash.ID) (planner.ProjectSheet, error)
	CutAgain(ctx context.Context, reservation stash.ID, piece int) (planner.CutAnew, error)

	EdgeJobs(ctx context.Context, pattern stash.ID, size string) ([]binding.Job, error)
	ReserveStrips(ctx context.Context, garment stash.ID, a planner.BindingAnswer) ([]stash.Reservation, error)
	KeepStrip(ctx context.Context, fabric stash.ID, s binding.Strip, drawn float64, note string) (stash.Fabric, error)
	AddTechnique(ctx context.Context, name, layers string) error
	DropTechnique(ctx context.Context, name string) error
}

var _ Studio = (*planner.Studio)(nil)
