// Package xmlscan goes through an XML file element by element and knows the
// place of each, and of each piece of its text. Names are local names: prefixes
// and namespaces, which programs get wrong, are left out of account. Entities
// of the file's own are not expanded, so a small file cannot grow into a large
// one.
package xmlscan
