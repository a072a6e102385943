package file

type yamlNode = tree

func scalarNode(text string) *tree {
	return &tree{shape: scalar, plain: true, text: text}
}
