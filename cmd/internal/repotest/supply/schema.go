package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// schemas are the published schemas of CycloneDX and of what they refer to, by
// their names within the standard, and their files in the folder schema of
// module github.com/CycloneDX/cyclonedx-go.
func schemas() map[string]string {
	return map[string]string{
		"bom-1.6.schema.json":  "bom-1.6.schema.json",
		"spdx.schema.json":     "spdx.schema.json",
		"jsf-0.82.schema.json": "jsf-0.82.schemax.json",
	}
}

// namespace is where the schemas say they live; nothing is fetched from there.
const namespace = "http://cyclonedx.org/schema/"

// standard is the schema of a bill, the standard's own.
func standard(ctx context.Context) (*jsonschema.Schema, error) {
	out, err := goTool(ctx, "", "list", "-m", "-f", "{{.Dir}}", "github.com/CycloneDX/cyclonedx-go")
	if err != nil {
		return nil, err
	}
	c := jsonschema.NewCompiler()
	c.UseLoader(jsonschema.SchemeURLLoader{}) // nothing is fetched
	for name, file := range schemas() {
		text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "schema", file))
		if err != nil {
			return nil, err
		}
		document, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		if err := c.AddResource(namespace+name, document); err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
	}
	return c.Compile(namespace + "bom-1.6.schema.json")
}

// validate holds a bill to a schema.
func validate(schema *jsonschema.Schema, bill []byte) error {
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(bill))
	if err != nil {
		return err
	}
	return schema.Validate(document)
}
