package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"debug/buildinfo"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"slices"
	"strings"

	cyclonedx "github.com/CycloneDX/cyclonedx-go"
)

// version is the edition of CycloneDX that bills are written in.
const version = cyclonedx.SpecVersion1_6

// bill prints what a binary was built from, as it says itself, in CycloneDX.
func bill(ctx context.Context, args []string, out, say io.Writer) error {
	if len(args) != 1 {
		return errors.New("name one binary")
	}
	licences, err := licencesByModule(ctx)
	if err != nil {
		return err
	}
	text, err := writtenBill(args[0], licences)
	if err != nil {
		return err
	}
	schema, err := standard(ctx)
	if err != nil {
		return err
	}
	if err := validate(schema, text); err != nil {
		return err
	}
	fmt.Fprintf(say, "%d components, valid against CycloneDX %s, sha256 %x\n", bytes.Count(text, []byte(`"type": "library"`)), version, sha256.Sum256(text))
	_, err = out.Write(text)
	return err
}

// licencesByModule gives the licence of every module in the program.
func licencesByModule(ctx context.Context) (map[string]string, error) {
	modules, err := modules(ctx)
	if err != nil {
		return nil, err
	}
	all := map[string]string{}
	for _, m := range modules {
		if all[m.Path], err = m.licence(); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// writtenBill depends on the binary alone: it has no time and no serial number.
func writtenBill(binary string, licences map[string]string) ([]byte, error) {
	info, err := buildinfo.ReadFile(binary)
	if err != nil {
		return nil, err
	}
	text, err := os.ReadFile(binary)
	if err != nil {
		return nil, err
	}
	b := cyclonedx.NewBOM()
	b.SerialNumber = ""
	b.Metadata = &cyclonedx.Metadata{Component: whole(info, text)}
	parts := components(info, licences)
	b.Components, b.Dependencies = &parts, dependencies(b.Metadata.Component, parts)
	var out bytes.Buffer
	err = cyclonedx.NewBOMEncoder(&out, cyclonedx.BOMFileFormatJSON).SetPretty(true).SetEscapeHTML(false).EncodeVersion(b, version)
	return out.Bytes(), err
}

// whole is the program itself; what it was built with stands in its properties.
func whole(info *debug.BuildInfo, binary []byte) *cyclonedx.Component {
	var made []cyclonedx.Property
	for _, s := range info.Settings {
		made = append(made, cyclonedx.Property{Name: "go:build:" + s.Key, Value: s.Value})
	}
	return &cyclonedx.Component{
		BOMRef: "hotroom", Type: cyclonedx.ComponentTypeApplication, Name: "hotroom", Version: info.Main.Version,
		Hashes:     &[]cyclonedx.Hash{{Algorithm: cyclonedx.HashAlgoSHA256, Value: fmt.Sprintf("%x", sha256.Sum256(binary))}},
		Licenses:   named("MIT"),
		Properties: &made,
	}
}

// components are the modules that were linked in, and Go's own library.
func components(info *debug.BuildInfo, licences map[string]string) []cyclonedx.Component {
	deps := append([]*debug.Module{{Path: "std", Version: strings.TrimPrefix(info.GoVersion, "go")}}, info.Deps...)
	var list []cyclonedx.Component
	for _, d := range deps {
		if d.Replace != nil {
			d = d.Replace
		}
		url := "pkg:golang/" + d.Path + "@" + d.Version // the form is package-url's, type golang
		c := cyclonedx.Component{BOMRef: url, Type: cyclonedx.ComponentTypeLibrary, Name: d.Path, Version: d.Version, PackageURL: url, Licenses: named(licences[d.Path])}
		if d.Sum != "" {
			c.Properties = &[]cyclonedx.Property{{Name: "go:sum", Value: d.Sum}}
		}
		list = append(list, c)
	}
	return list
}

// named gives one licence by its SPDX name, or several joined by AND; none
// where there is no name.
func named(licence string) *cyclonedx.Licenses {
	switch {
	case licence == "":
		return nil
	case strings.Contains(licence, " "):
		return &cyclonedx.Licenses{{Expression: licence}}
	}
	return &cyclonedx.Licenses{{License: &cyclonedx.License{ID: licence}}}
}

// dependencies says that the program is made of its parts; how they depend on
// each other is not in a binary.
func dependencies(program *cyclonedx.Component, parts []cyclonedx.Component) *[]cyclonedx.Dependency {
	var refs []string
	for _, p := range parts {
		refs = append(refs, p.BOMRef)
	}
	slices.Sort(refs)
	return &[]cyclonedx.Dependency{{Ref: program.BOMRef, Dependencies: &refs}}
}
