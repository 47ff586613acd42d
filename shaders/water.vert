#version 300 es
// The pond and the sky behind it. In: corners in the world [m], or of the whole picture when u_sky is 1.
layout(location = 0) in vec3 a_position;
uniform mat4 u_world_to_clip;
uniform float u_sky;
out vec3 v_world;

void main() {
  v_world = a_position;
  gl_Position = u_sky > 0.5 ? vec4(a_position.xy, 0.999, 1.0) : u_world_to_clip * vec4(a_position, 1.0);
}
