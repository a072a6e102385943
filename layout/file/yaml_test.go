package file

import "gopkg.in/yaml.v3"

type yamlNode = yaml.Node

func scalarNode(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Value: text}
}
