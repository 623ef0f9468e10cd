package web

import (
	"context"
	"encoding/json"
	"net/http"
	"reflect"
	"slices"
	"strings"

	"hotroom/advisor/bench"
)

// object is a JSON object of the description.
type object map[string]any

// describe writes the description of the service (OpenAPI 3.1) out of the table
// of routes and the types that they take and give.
func describe(routes []*route, program string) ([]byte, error) {
	forms := newForms()
	paths := object{}
	for _, rt := range routes {
		path := strings.ReplaceAll(rt.path, ":id", "{id}")
		at, ok := paths[path].(object)
		if !ok {
			at = object{}
			paths[path] = at
		}
		at[strings.ToLower(rt.method)] = forms.operation(rt)
		if rt.method == http.MethodGet {
			head := forms.operation(rt)
			head["operationId"] = rt.name + "Head"
			head["responses"] = object{"default": object{"description": "the header fields of the answer to GET"}}
			at["head"] = head
		}
	}
	components := object{"schemas": forms.schemas, "responses": object{"Problem": problemResponse(forms)}}
	if slices.ContainsFunc(routes, func(rt *route) bool { return rt.created != nil }) {
		components["securitySchemes"] = object{"token": object{"type": "http", "scheme": "bearer"}}
	}
	out, err := json.MarshalIndent(object{
		"openapi": "3.1.0",
		"info": object{
			"title": "hotroom", "version": program,
			"summary":     "Will this board's CPU power delivery handle this chip in this room?",
			"description": about,
		},
		"paths":      paths,
		"components": components,
	}, "", " ")
	return append(out, '\n'), err
}

const about = "Numbers carry their unit in the key: _c °C (K for differences), _w W, _a A, _ghz GHz, _m m. " +
	"A number that nobody knows is null. What cannot be answered comes as a problem document (RFC 9457) that says how to mend the request: " +
	"400 what cannot be read, 401 what needs a token, 404 what is not there, 409 what is there already, 413 and 414 what is too long, 415 what is no JSON, 422 what reads well and cannot be answered as asked, " +
	"429 and 503 with Retry-After when to come again. Answers to GET may be kept by any cache; their ETag changes with the knowledge, the rules, the program and the question. " +
	"The makers' stated limits win over every answer."

func problemResponse(f *forms) object {
	return object{
		"description": "what is wrong, and how to mend it",
		"content":     object{problemType: object{"schema": f.of(reflect.TypeFor[Problem]())}},
	}
}

func (f *forms) operation(rt *route) object {
	answer := object{"description": "the answer", "content": object{rt.media: object{"schema": f.of(rt.gives)}}}
	responses := object{"200": answer, "default": object{"$ref": "#/components/responses/Problem"}}
	switch {
	case rt.now != nil:
		responses["503"] = answer
	case rt.method == http.MethodGet:
		responses["304"] = object{"description": "what the client has is right still"}
		answer["headers"] = object{"ETag": object{"schema": object{"type": "string"}}, "Cache-Control": object{"schema": object{"type": "string"}}}
	}
	op := object{"operationId": rt.name, "summary": rt.summary, "responses": responses}
	if params := f.params(rt); len(params) > 0 {
		op["parameters"] = params
	}
	if rt.created != nil {
		delete(responses, "200")
		responses["201"] = answer
		answer["headers"] = object{"Location": object{"schema": object{"type": "string"}}}
		op["security"] = []object{{"token": []string{}}}
	}
	if rt.takes != nil {
		op["requestBody"] = object{"required": true, "content": object{jsonType: object{"schema": f.asked(rt.takes)}}}
	}
	return op
}

func (f *forms) params(rt *route) []object {
	var list []object
	if strings.Contains(rt.path, ":id") {
		list = append(list, object{"name": "id", "in": "path", "required": true, "schema": object{"type": "string"}})
	}
	for _, p := range rt.params {
		schema := object{"type": "string", "maxLength": longestValue}
		switch {
		case p.number:
			schema = object{"type": "number"}
		case p.words != nil:
			schema = object{"type": "string", "enum": p.words}
		case p.many:
			schema = object{"type": "array", "items": schema}
		}
		at := object{"name": p.name, "in": "query", "description": p.meaning, "schema": schema}
		if p.example != "" {
			at["example"] = p.example
		}
		list = append(list, at)
	}
	return list
}

// asked describes what a body may hold: texts and numbers, none of them needed
// by the form.
func (f *forms) asked(t reflect.Type) object {
	if t == reflect.TypeFor[Sentence]() {
		return object{
			"type": "object", "additionalProperties": false, "required": []string{"text"},
			"properties": object{"text": object{"type": "string"}},
		}
	}
	if t == reflect.TypeFor[bench.Row]() {
		row := f.fields(t, jsonKey)
		row["additionalProperties"], row["required"] = false, []string{"room_c"}
		return row
	}
	properties := object{}
	for _, p := range questionParams() {
		types := []string{"number", "string", "null"}
		if isName(p.name) {
			types = []string{"string", "null"}
		}
		properties[keyOf(p.name)] = object{"type": types, "description": p.meaning}
	}
	f.schemas["AskedQuestion"] = object{"type": "object", "additionalProperties": false, "properties": properties}
	one := object{"$ref": "#/components/schemas/AskedQuestion"}
	return object{"oneOf": []object{one, {"type": "array", "items": one, "maxItems": mostBatch}}}
}

// description answers with the description itself.
func (s *Server) description(context.Context, *state, none) (text, error) { return text(s.spec), nil }
