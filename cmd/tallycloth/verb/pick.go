package verb

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// pick returns the one of all whose name is want, or else the one whose name begins
// with it or holds it, capitals aside. None or several is an error that lists what there is.
func pick[T any](what, want string, all []T, name func(T) string) (T, error) {
	said := strings.TrimSpace(want)
	want = strings.ToLower(said)
	tests := []func(string) bool{
		func(n string) bool { return n == want },
		func(n string) bool { return strings.HasPrefix(n, want) },
		func(n string) bool { return strings.Contains(n, want) },
	}
	var none T
	for _, is := range tests {
		var found []T
		for _, v := range all {
			if is(strings.ToLower(name(v))) {
				found = append(found, v)
			}
		}
		switch {
		case len(found) == 1:
			return found[0], nil
		case len(found) > 1 && want != "":
			return none, mistyped(fmt.Sprintf("More than one %s goes by %q", what, said), "Say which: "+names(found, name))
		}
	}
	if len(all) == 0 {
		return none, mistyped("There is no "+what+" in the library yet", "Add one, or make the demo studio with the verb demo")
	}
	return none, mistyped(fmt.Sprintf("No %s goes by %q", what, said), "There are: "+names(all, name))
}

// names lists names, the first dozen.
func names[T any](all []T, name func(T) string) string {
	const most = 12
	var out []string
	for i, v := range all {
		if i == most {
			out = append(out, fmt.Sprintf("and %d more", len(all)-most))
			break
		}
		out = append(out, name(v))
	}
	return strings.Join(out, "; ")
}

func (l *library) pickPattern(ctx context.Context, name string) (pattern.Pattern, error) {
	all, err := l.Patterns(ctx)
	if err != nil {
		return pattern.Pattern{}, err
	}
	return pick("pattern", name, all, func(p pattern.Pattern) string { return p.Name })
}

// pickSize returns the name of a size as the pattern writes it.
func pickSize(p pattern.Pattern, name string) (string, error) {
	if name == "" && len(p.Sizes) == 1 {
		return p.Sizes[0].Name, nil
	}
	var sizes []string
	for _, z := range p.Sizes {
		if strings.EqualFold(z.Name, strings.TrimSpace(name)) {
			return z.Name, nil
		}
		sizes = append(sizes, z.Name)
	}
	return "", mistyped(fmt.Sprintf("%s has no size %q", p.Name, name), "It has: "+strings.Join(sizes, ", "))
}

// pickRole returns what the fabric is used for as the pattern writes it; "" is main.
func pickRole(p pattern.Pattern, name string) (string, error) {
	if name == "" {
		return pattern.Main, nil
	}
	r, err := pick("use of fabric in this pattern", name, p.Roles, func(r pattern.Role) string { return r.Name })
	return r.Name, err
}

func (l *library) pickFabric(ctx context.Context, name string) (stash.Fabric, error) {
	all, err := l.Fabrics(ctx)
	if err != nil {
		return stash.Fabric{}, err
	}
	return pick("fabric", name, all, func(f stash.Fabric) string { return f.Name })
}

func (l *library) pickCloth(ctx context.Context, code string) (stash.ClothState, error) {
	all, err := l.Cloths(ctx)
	if err != nil {
		return stash.ClothState{}, err
	}
	for _, c := range all {
		if strings.EqualFold(c.Cloth.Code, strings.TrimSpace(code)) {
			return c, nil
		}
	}
	if b, found, err := l.WhatBecame(ctx, code); err != nil {
		return stash.ClothState{}, err
	} else if found {
		return stash.ClothState{}, mistyped(b.Words(), "Say the code of what is left, or look at the verb history")
	}
	return stash.ClothState{}, mistyped(fmt.Sprintf("No cloth on the shelf has the code %q", code), "The verb list cloth shows the codes")
}

func (l *library) pickGarment(ctx context.Context, name string) (garment.Garment, error) {
	all, err := l.Garments(ctx)
	if err != nil {
		return garment.Garment{}, err
	}
	return pick("garment", name, all, func(g garment.Garment) string { return g.Name })
}
